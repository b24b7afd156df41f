/** Points in bodies of a stock, by their definition and nothing cleverer. */
import type { Stock, StockSolid, Vec3 } from "../../../server/setup/types.ts";
import { resolve } from "./complete.ts";

const UNIT = { x: [1, 0, 0], y: [0, 1, 0], z: [0, 0, 1] } as const;

const dot = (a: Vec3, b: Vec3): number => a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
const minus = (a: Vec3, b: Vec3): Vec3 => [a[0] - b[0], a[1] - b[1], a[2] - b[2]];

export function within(body: StockSolid, p: Vec3): boolean {
  if (body.cut.some(({ through, normal }) => dot(normal, minus(p, through)) > 0)) return false;
  if (body.kind === "box")
    return [body.x, body.y, body.z].every(([low, high], i) => (p[i] ?? 0) >= low && (p[i] ?? 0) <= high);
  const [axis, from] =
    typeof body.axis === "string" ? [UNIT[body.axis], [0, 0, 0] as const] : [body.axis, body.through];
  const along = dot(minus(p, from), axis);
  const m = minus(p, body.through);
  const aside = Math.sqrt(Math.max(0, dot(m, m) - dot(m, axis) ** 2));
  return along >= body.span[0] && along <= body.span[1] && aside <= body.diameter / 2;
}

export const metal = ({ solids, voids }: Stock, p: Vec3): boolean =>
  solids.some((body) => within(body, p)) && !voids.some((body) => within(body, p));

/** The stock and the problems of a setup whose `stock:` has these lines. */
export function stockOf(lines: string, units = "mm") {
  const text = `units: ${units}
programs: [{ files: "*.nc", workpiece: w }]
workpieces:
  w:
    stock:
${lines.replace(/^(?=.)/gm, "      ")}
`;
  const { setup } = resolve({ "swarfline.yaml": text }, "a.nc");
  return { stock: setup.workpiece?.stock ?? null, problems: setup.problems.map((p) => p.message), setup };
}
