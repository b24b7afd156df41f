import { anyHoles, type MetalHole } from "./cause.ts";
import { dryDoubt } from "./coolant-late.ts";
import { throughDoubt } from "./through-coolant.ts";
import type { CheckContext } from "./types.ts";

const made = new WeakMap<CheckContext, ReadonlyMap<string, readonly MetalHole[]>>();

/** Holes whose coolant is not checked, by the M code that nobody has declared and that may have switched it. */
export function coolantUnchecked(context: CheckContext): ReadonlyMap<string, readonly MetalHole[]> {
  let byCode = made.get(context);
  if (byCode === undefined) {
    byCode = gather(context);
    made.set(context, byCode);
  }
  return byCode;
}

function gather(context: CheckContext): ReadonlyMap<string, readonly MetalHole[]> {
  const byCode = new Map<string, MetalHole[]>();
  for (const hole of anyHoles(context)) {
    const code = dryDoubt(context, hole) ?? throughDoubt(context, hole);
    if (code === null) continue;
    const holes = byCode.get(code);
    if (holes === undefined) byCode.set(code, [hole]);
    else holes.push(hole);
  }
  return byCode;
}
