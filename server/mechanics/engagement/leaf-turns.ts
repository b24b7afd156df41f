/** Directions in which the edge touches a primitive, or passes its middle. Derived. */
import { ACROSS, DRILLED, HALF_SPACE, type Leaf, OBLIQUE } from "./leaf.ts";
import type { Numbers } from "./numbers.ts";

/** Directions in radians, of any turn, the tip at height z. */
export function leafTurns(leaf: Leaf, z: number, k: number, out: Numbers): void {
  const { middle, q, radius } = leaf;
  switch (leaf.type) {
    case HALF_SPACE:
    case OBLIQUE:
      if (leaf.q > 0 || leaf.type === OBLIQUE) out.push(middle);
      return;
    case ACROSS: {
      const v = z - leaf.z;
      out.push(middle);
      out.push(middle + Math.PI / 2);
      // (k·v - u·q)² = (u² + k²)(q² + v² - radius²), u the cosine from the middle.
      const c = q * q + v * v - radius * radius;
      cosines(q * q - c, -k * v * q, k * k * (v * v - c), middle, out);
      return;
    }
    default:
      out.push(middle);
      if (q > radius) around(Math.sqrt(1 - (radius / q) ** 2), leaf, out);
      if (leaf.type === DRILLED && leaf.point > 0 && q > 0) {
        // (m + f·v·g)² = (1 - f·g²)(q² - f·v²), m the distance of the axis along the edge, f the flare squared.
        const v = leaf.up * (z - leaf.z);
        const g = leaf.up * k;
        const f = leaf.flare * leaf.flare;
        const room = (1 - f * g * g) * (q * q - f * v * v);
        if (room < 0) return;
        const w = Math.sqrt(room);
        around((-f * v * g - w) / q, leaf, out);
        around((-f * v * g + w) / q, leaf, out);
      }
  }
}

/** Both directions with this cosine from that towards the axis of the cylinder. */
function around(c: number, { middle, negated }: Leaf, out: Numbers): void {
  if (!(Math.abs(c) <= 1)) return;
  const half = Math.acos(negated ? -c : c);
  out.push(middle + half);
  out.push(middle - half);
}

function cosines(a: number, b: number, c: number, middle: number, out: Numbers): void {
  if (Math.abs(a) < 1e-15) return;
  const root = b * b - a * c;
  if (root < 0) return;
  for (const w of [Math.sqrt(root), -Math.sqrt(root)]) {
    const u = (w - b) / a;
    if (!(Math.abs(u) <= 1)) continue;
    const half = Math.acos(u);
    out.push(middle + half);
    out.push(middle - half);
  }
}
