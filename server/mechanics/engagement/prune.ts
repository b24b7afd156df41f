/**
 * What of a solid can matter to a drill: primitives that do not change inside the cylinder it sweeps are decided and
 * gone, so that a hole carries only its own neighbourhood. Derived.
 */
import { ALL, NONE, SOME } from "./arcs.ts";
import { Leaf, OBLIQUE } from "./leaf.ts";
import { obliqueWithin } from "./oblique.ts";
import { EVERYWHERE, NOTHING, type Primitive, type Solid } from "./solids.ts";

/** The swept cylinder: R around x = y = 0, heights low to high, either of which may be endless. */
interface Swept {
  readonly R: number;
  readonly low: number;
  readonly high: number;
}

/**
 * The same metal and air inside the swept cylinder, made of no more than it takes.
 * @param zLow deepest tip height
 * @param zHigh highest corner height
 */
export function pruned(solid: Solid, R: number, zLow: number, zHigh: number): Solid {
  return prune(solid, { R, low: zLow, high: zHigh });
}

function prune(solid: Solid, swept: Swept): Solid {
  switch (solid.kind) {
    case "not": {
      const part = prune(solid.part, swept);
      if (isEverywhere(part)) return NOTHING;
      if (isNothing(part)) return EVERYWHERE;
      if (part.kind === "not") return part.part;
      return part === solid.part ? solid : { kind: "not", part };
    }
    case "union":
    case "intersection":
      return pruneParts(solid.kind, solid.parts, swept);
    default: {
      const code = decide(solid, swept);
      if (code !== SOME) return code === ALL ? EVERYWHERE : NOTHING;
      return plainer(solid, swept);
    }
  }
}

export const isEverywhere = (solid: Solid): boolean => solid.kind === "intersection" && solid.parts.length === 0;
export const isNothing = (solid: Solid): boolean => solid.kind === "union" && solid.parts.length === 0;

function pruneParts(kind: "union" | "intersection", parts: readonly Solid[], swept: Swept): Solid {
  const out: Solid[] = [];
  const union = kind === "union";
  for (const one of parts) {
    const part = prune(one, swept);
    if (union ? isEverywhere(part) : isNothing(part)) return union ? EVERYWHERE : NOTHING;
    if (part.kind === kind) out.push(...part.parts);
    else if (!(union ? isNothing(part) : isEverywhere(part))) out.push(part);
  }
  const only = out.length === 1 ? out[0] : undefined;
  if (only !== undefined) return only;
  if (out.length === 0) return union ? NOTHING : EVERYWHERE;
  return { kind, parts: out };
}

/** An earlier hole whose point lies below all that the drill sweeps is as good as endless. */
function plainer(solid: Primitive, { low, high }: Swept): Primitive {
  if (solid.kind !== "drilled") return solid;
  const clear = solid.down ? solid.tip - high : low - solid.tip;
  if (!(clear >= solid.point && clear > 0)) return solid;
  return { kind: "along", x: solid.x, y: solid.y, radius: solid.radius };
}

/** ALL or NONE where the primitive is the same in the whole swept cylinder. */
function decide(solid: Primitive, { R, low, high }: Swept): number {
  switch (solid.kind) {
    case "half-space": {
      const reach = Math.hypot(solid.nx, solid.ny) * R;
      const a = solid.nz === 0 ? 0 : solid.nz * low;
      const b = solid.nz === 0 ? 0 : solid.nz * high;
      if (reach + Math.max(a, b) <= solid.d) return ALL;
      return Math.min(a, b) - reach > solid.d ? NONE : SOME;
    }
    case "along":
    case "drilled": {
      const q = Math.hypot(solid.x, solid.y);
      if (q - solid.radius >= R) return NONE;
      const leaf = new Leaf(solid, false);
      const ends = [leaf.radiusAt(low), leaf.radiusAt(high)] as const;
      if (Math.max(...ends) <= 0) return NONE;
      if (q - Math.max(...ends) >= R) return NONE;
      return q + R <= Math.min(...ends) ? ALL : SOME;
    }
    case "across": {
      const u = Math.max(0, Math.abs(solid.offset) - R);
      const v = Math.max(0, low - solid.z, solid.z - high);
      if (u * u + v * v >= solid.radius ** 2) return NONE;
      const far = Math.max(solid.z - low, high - solid.z);
      return (Math.abs(solid.offset) + R) ** 2 + far * far <= solid.radius ** 2 ? ALL : SOME;
    }
    case "oblique": {
      const leaf = new Leaf(solid, false);
      return leaf.type === OBLIQUE ? obliqueWithin(leaf, R, low, high) : SOME;
    }
  }
}

/** True when no radius can be in metal for part of a turn only: level faces and holes about the drill's own axis. */
export function isPlain(solid: Solid): boolean {
  switch (solid.kind) {
    case "half-space":
      return solid.nx === 0 && solid.ny === 0;
    case "along":
    case "drilled":
      return solid.x === 0 && solid.y === 0;
    case "across":
    case "oblique":
      return false;
    case "not":
      return isPlain(solid.part);
    default:
      return solid.parts.every(isPlain);
  }
}

export { keyOf } from "./key.ts";
export { NOTHING } from "./solids.ts";
