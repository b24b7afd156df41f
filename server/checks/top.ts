/** The height that counts as the top of the part, for checks that ask whether the tool stands low. */
import { allHoles } from "./cause.ts";
import type { CheckContext } from "./types.ts";

/** mm above the top below which a tool counts as low: common practice, no source. */
export const LOW = 5;

export interface Top {
  readonly z: number;
  readonly declared: boolean;
}

/** The dialect says where the surface is: its height, or how far R must be above it, stands in the setup. */
export function topByKey({ setup }: CheckContext): boolean {
  const base = `${setup.machine?.path ?? ""}.dialect`;
  return ["stockTop", "clearanceMin"].some((key) => setup.origins.get(`${base}.${key}`)?.kind === "file");
}

const tops = new WeakMap<CheckContext, Top>();

/** The highest surface that any hole along Z meets; without holes the dialect's `stockTop`. */
export function topOf(context: CheckContext): Top {
  let top = tops.get(context);
  if (top === undefined) {
    let z = Number.NEGATIVE_INFINITY;
    let declared = false;
    for (const { shape } of allHoles(context)) {
      if (shape.axis !== "z") continue;
      const own = shape.topZ ?? shape.surfaceZ;
      if (own <= z) continue;
      z = own;
      declared = shape.topDeclared ?? shape.surfaceFrom === "stock";
    }
    top = Number.isFinite(z) ? { z, declared } : { z: context.setup.dialect.stockTop, declared: false };
    tops.set(context, top);
  }
  return top;
}
