/** A solid in one word: equal words mean equal arcs, whatever the order of the parts, so that equal surroundings share one curve. */
import type { Solid } from "./solids.ts";

/** mm to a millionth, parts of a unit vector to a billionth; -0 is 0. */
const mm = (value: number): string => String(Math.round(value * 1e6) + 0);
const part = (value: number): string => String(Math.round(value * 1e9) + 0);

export function keyOf(solid: Solid): string {
  switch (solid.kind) {
    case "half-space": {
      const n = Math.hypot(solid.nx, solid.ny, solid.nz);
      // A normal of no length says everything or nothing by its d.
      if (n === 0) return solid.d >= 0 ? "&()" : "|()";
      return `H${part(solid.nx / n)},${part(solid.ny / n)},${part(solid.nz / n)},${mm(solid.d / n)}`;
    }
    case "along":
      return `A${mm(solid.x)},${mm(solid.y)},${mm(solid.radius)}`;
    case "drilled":
      return `D${mm(solid.x)},${mm(solid.y)},${mm(solid.radius)},${mm(solid.tip)},${mm(solid.point)}${solid.down ? "v" : ""}`;
    case "across": {
      // Half a turn on, the axis lies the other way: the first half of the turn says all.
      const turns = Math.floor(solid.square / Math.PI + 1e-12);
      const square = solid.square - turns * Math.PI;
      const offset = turns % 2 === 0 ? solid.offset : -solid.offset;
      return `X${part(square)},${mm(offset)},${mm(solid.z)},${mm(solid.radius)}`;
    }
    case "oblique":
      return obliqueKey(solid);
    case "not":
      return `!${keyOf(solid.part)}`;
    default: {
      const keys = [...new Set(solid.parts.map(keyOf))].sort();
      return `${solid.kind === "union" ? "|" : "&"}(${keys.join(";")})`;
    }
  }
}

/** The axis by its direction, upwards, and its point nearest to the origin. */
function obliqueKey(solid: Extract<Solid, { kind: "oblique" }>): string {
  const [px, py, pz] = solid.through;
  const [vx, vy, vz] = solid.dir;
  const first = vz !== 0 ? vz : vx !== 0 ? vx : vy;
  const w = Math.hypot(vx, vy, vz) * (first < 0 ? -1 : 1);
  const t = (px * vx + py * vy + pz * vz) / (w * w);
  const at = [px - t * vx, py - t * vy, pz - t * vz].map(mm);
  return `O${[vx / w, vy / w, vz / w].map(part)},${at},${mm(solid.radius)}`;
}
