import { choice, either, quantity, record } from "./node.ts";

const cell = either(
  quantity("share", { description: "Share of the nominal feed, 0 to 1 or in %." }, { min: 0, over: true, max: 1 }),
  choice(
    { no: "This family must not be used in this class." },
    { description: "This family must not be used in this class." },
  ),
  {
    description: "Share of the nominal feed, 0 to 1 or in %, or `no` where this family must not.",
    examples: ["0.5", "50 %", "no"],
  },
);

const row = (description: string) =>
  record("feed shares", { indexable: cell, "solid-carbide": cell, "twist-hss": cell, spade: cell }, { description });

/** `practice:`: feed shares in interrupted cuts, where the shop's own differ from common practice. */
export const PRACTICE = record(
  "feed shares by class",
  {
    light: row("Entries that are hardly interrupted."),
    medium: row("Part of the turn in air."),
    heavy: row("A large part of the turn in air."),
    extreme: row("The drill axis itself in air, or heavy in a deep hole."),
    skin: row("Through cast or forged skin."),
  },
  {
    description:
      "Share of the nominal feed in interrupted cuts, by class and drill family. Defaults are common practice, no source.",
  },
);
