import type { CoolantKind, DrillFamily } from "../setup/types.ts";
import type { CheckContext } from "./types.ts";

const CARBIDE: ReadonlySet<DrillFamily> = new Set(["solid-carbide", "indexable", "gun"]);

/** Families whose edge is carbide and cracks when it is quenched hot. */
export function isCarbide(family: DrillFamily): boolean {
  return CARBIDE.has(family);
}

/** The code that switches this kind of coolant on at this machine: `M88`. null: none is declared. */
export function coolantCode(context: CheckContext, kind: CoolantKind): string | null {
  for (const [code, supply] of context.setup.machine?.coolant ?? []) if (supply.kind === kind) return code;
  for (const [code, supplied] of context.setup.dialect.coolantOn) if (supplied === kind) return code;
  return null;
}
