/** Feed shares of shop practice: the default table and what a setup changes in it. */
import type { Infer } from "./schema/node.ts";
import type { PRACTICE } from "./schema/practice.ts";
import type { Practice } from "./types.ts";

/**
 * Share of the nominal feed by class of interruption and drill family; null: this family must not. All of it common
 * practice, no source. Solid carbide in heavy: only where the tool's own data declares a share. Extreme: a two-insert
 * drill up to 3xD; longer ones and all other families face, spot or mill first. Skin: until the corner is 1 to 2 mm
 * below it, HSS at three quarters of the speed.
 */
export const defaultPractice: Practice = {
  share: {
    light: { indexable: 1.0, "solid-carbide": 1.0, "twist-hss": 1.0, spade: 0.8 },
    medium: { indexable: 0.7, "solid-carbide": 0.5, "twist-hss": 0.7, spade: 0.6 },
    heavy: { indexable: 0.5, "solid-carbide": null, "twist-hss": 0.5, spade: null },
    extreme: { indexable: 0.5, "solid-carbide": null, "twist-hss": null, spade: null },
    skin: { indexable: 0.8, "solid-carbide": 0.8, "twist-hss": 1.0, spade: 0.75 },
  },
};

export const PRACTICE_CLASSES = ["light", "medium", "heavy", "extreme", "skin"] as const;
export const PRACTICE_FAMILIES = ["indexable", "solid-carbide", "twist-hss", "spade"] as const;

/** The default table with the setup's own cells in their places. */
export function mergePractice(own: Infer<typeof PRACTICE> | undefined): Practice {
  if (own === undefined) return defaultPractice;
  const row = (name: (typeof PRACTICE_CLASSES)[number]): Practice["share"]["light"] => {
    const cell = (family: (typeof PRACTICE_FAMILIES)[number]): number | null => {
      const written = own[name]?.[family];
      if (written === undefined) return defaultPractice.share[name][family];
      return written === "no" ? null : written;
    };
    return {
      indexable: cell("indexable"),
      "solid-carbide": cell("solid-carbide"),
      "twist-hss": cell("twist-hss"),
      spade: cell("spade"),
    };
  };
  return {
    share: {
      light: row("light"),
      medium: row("medium"),
      heavy: row("heavy"),
      extreme: row("extreme"),
      skin: row("skin"),
    },
  };
}
