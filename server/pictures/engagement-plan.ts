/** The drill seen along its axis: what of its front is in metal at the worst depth. */
import type { UnitSystem } from "../units/quantities.ts";
import { type EngagedRing, engagedShape } from "./engagement-shape.ts";
import { type Drawing, framed, GREY, hatch, type Key, legend, METAL } from "./engagement-style.ts";
import { sayHeight, sayShare } from "./engagement-words.ts";
import { element, text } from "./svg.ts";

export interface EngagementPlanInput {
  readonly radiusMm: number;
  /** Where the centre insert ends and the peripheral one begins; drawn for a two-insert drill. */
  readonly centreMm: number;
  readonly kind: "two-insert" | "two-lip";
  readonly rings: readonly EngagedRing[];
  /** False: the entry is known but not which way it faces, so the picture may be turned. */
  readonly directionKnown: boolean;
  /** Names of the axis to the right and of the one upward. */
  readonly axes: readonly [string, string];
  /** Height of the tip. */
  readonly zMm: number;
  /** Shares in metal, 0 to 1. */
  readonly area: number;
  readonly rim: number;
  readonly system: UnitSystem;
}

const WIDTH = 250;
const HEIGHT = 240;
const X = WIDTH / 2;
const Y = 94;
const RADIUS = 68;
/** How far the axis cross stands out of the outline, with arrows and without. */
const OUT = 14;
const OUT_PLAIN = 7;
const HATCH = "hatch-metal";

/** A whole SVG document, ASCII only. */
export function engagementPlanSvg(input: EngagementPlanInput): string {
  return framed(planDrawing(input));
}

export function planDrawing(input: EngagementPlanInput): Drawing {
  const { axes, directionKnown, system } = input;
  const radiusMm = outlineOf(input);
  const shape = engagedShape(input.rings, { x: X, y: Y, radiusMm, radiusPx: RADIUS });
  const along = ["X", "Y", "Z"].find((name) => !axes.includes(name)) ?? "Z";
  const depth = `${along} ${sayHeight(input.zMm, system)}`;
  const shares = `area ${sayShare(input.area)}, rim ${sayShare(input.rim)}`;

  const parts: string[] = [element("defs", {}, hatch(HATCH, { stroke: METAL, gap: 7, slant: 45, crossed: false }))];
  if (shape.metal !== "") {
    const metal = { d: shape.metal, "fill-rule": "evenodd" };
    parts.push(
      element("path", { id: "engaged", ...metal, ...TINT, stroke: METAL, "stroke-width": 1.5 }),
      element("path", { ...metal, ...HATCHED }),
    );
  }
  parts.push(cross(directionKnown ? axes : null));
  parts.push(element("circle", { id: "outline", cx: X, cy: Y, r: RADIUS, fill: "none", stroke: GREY }));
  const keys = [METAL_KEY, AIR_KEY];
  const centre = input.centreMm / radiusMm;
  if (input.kind === "two-insert" && centre > 0 && centre < 1) {
    parts.push(element("circle", { id: "centre", cx: X, cy: Y, r: RADIUS * centre, ...DASHED }));
    keys.push(INSERTS_KEY);
  }
  const rim = { fill: "none", stroke: METAL, "stroke-width": 3.5 };
  if (shape.rim !== "") parts.push(element("path", { id: "rim", d: shape.rim, ...rim }));

  const centred = { "text-anchor": "middle" };
  if (!directionKnown) parts.push(text(X, 11, "direction not told: may be turned", centred));
  parts.push(
    legend(X, 198, keys),
    text(X, 217, `worst at ${depth}`, { ...centred, "font-weight": "bold" }),
    text(X, 233, `in metal: ${shares}`, centred),
  );
  return {
    name: "plan",
    width: WIDTH,
    height: HEIGHT,
    title: `Drill seen along ${along} at its worst depth`,
    desc: `Tip at ${depth}. In metal: ${shares}. ${
      directionKnown
        ? `${axes[0]} goes to the right, ${axes[1]} up.`
        : "The direction is not told, so the picture may be turned."
    }`,
    parts,
  };
}

const DASHED = { fill: "none", stroke: GREY, "stroke-width": 1.5, "stroke-dasharray": "5 3" };
const TINT = { fill: METAL, "fill-opacity": 0.25 };
const HATCHED = { fill: `url(#${HATCH})`, "fill-opacity": 0.55 };
const SWATCH = { width: 20, height: 10 };

const METAL_KEY: Key = {
  name: "metal",
  sample: (x, y) =>
    element("rect", { x, y, ...SWATCH, ...TINT, stroke: METAL }) + element("rect", { x, y, ...SWATCH, ...HATCHED }),
};
const AIR_KEY: Key = {
  name: "air",
  sample: (x, y) => element("rect", { x, y, ...SWATCH, stroke: GREY, fill: "none" }),
};
const INSERTS_KEY: Key = {
  name: "inserts meet",
  sample: (x, y) => element("line", { x1: x, x2: x + 20, y1: y + 5, y2: y + 5, ...DASHED }),
};

/** Sizes that a drill can have, mm; others would leave the range of the arithmetic. */
const sound = (radius: number): boolean => radius > 1e-3 && radius < 1e6;

/** Without a sound radius the rings themselves say how large the drill is. */
function outlineOf({ radiusMm, rings }: EngagementPlanInput): number {
  if (sound(radiusMm)) return radiusMm;
  return rings.reduce((most, { toR }) => (sound(toR) && toR > most ? toR : most), 0) || 1;
}

/** Centre lines as on a drawing; arrows and names only where the directions are known. */
function cross(axes: readonly [string, string] | null): string {
  const end = RADIUS + (axes === null ? OUT_PLAIN : OUT);
  const line = { stroke: GREY, "stroke-dasharray": "12 3 3 3" };
  const out = [
    element("line", { x1: X - end, x2: X + end, y1: Y, y2: Y, ...line }),
    element("line", { x1: X, x2: X, y1: Y + end, y2: Y - end, ...line }),
  ];
  if (axes !== null) {
    const right = `M${X + end + 5} ${Y}L${X + end - 3} ${Y - 3.5}L${X + end - 3} ${Y + 3.5}Z`;
    const up = `M${X} ${Y - end - 5}L${X - 3.5} ${Y - end + 3}L${X + 3.5} ${Y - end + 3}Z`;
    out.push(
      element("path", { d: right + up }),
      text(X + end + 9, Y + 4, axes[0], { "font-weight": "bold" }),
      text(X + 8, Y - end + 4, axes[1], { "font-weight": "bold" }),
    );
  }
  return out.join("");
}
