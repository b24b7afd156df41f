/** Coordinates, spans and directions: what the stock and the entries of a workpiece are measured with. */
import { say as inBoth } from "../../units/wording.ts";
import { number, pair, quantity, type Range, type Say, triple } from "./node.ts";

const any: Range = {};
export const size = (mm: number): string => inBoth(mm, "length", "mm");
export const WCS = "^G5\\d(\\.\\d)?( ?P\\d+)?$";

export function isWcs(value: string, say: Say): void {
  if (!new RegExp(WCS, "i").test(value))
    say("", `expected a work coordinate system such as G54, got "${value}"`, { fatal: true });
}

const xyz = ["x", "y", "z"] as const;

export const coordinate = quantity("length", { description: "A coordinate." }, any);

export const level = (description: string, example: string, fallback?: string) =>
  quantity("length", { description, examples: [example], ...(fallback === undefined ? {} : { fallback }) }, any);

export const position = (description: string, example: string) =>
  triple(coordinate, xyz, { description, examples: [example] });

/** A point seen from above. */
export const spot = (description: string, example: string) =>
  pair(coordinate, ["x", "y"], { description, examples: [example] });

export const span = (description: string, example: string, fallback?: string) =>
  pair(
    coordinate,
    ["from", "to"],
    { description, examples: [example], ...(fallback === undefined ? {} : { fallback }) },
    ([from, to], say) => {
      if (from >= to) say("", `expected [from, to] that rises, got ${size(from)} to ${size(to)}`, { fatal: true });
    },
  );

export const direction = (description: string, example: string) =>
  triple(
    number({ description: "Component of the direction." }),
    xyz,
    { description, examples: [example] },
    ([x, y, z], say) => {
      if (Math.hypot(x, y, z) < 1e-9) say("", "expected a direction, got [0, 0, 0]", { fatal: true });
    },
  );
