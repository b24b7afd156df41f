/** Plan view and curve of one hole side by side, for a file of its own. */
import { curveDrawing, type EngagementCurveInput } from "./engagement-curve.ts";
import { type EngagementPlanInput, planDrawing } from "./engagement-plan.ts";
import { framed, textWidth } from "./engagement-style.ts";
import { text } from "./svg.ts";

export interface EngagementInput {
  /** In words: `Hole X10. Y20.`, `T7 D20 two-insert drill`, `line 34`. */
  readonly hole: string;
  readonly tool: string;
  readonly line: string;
  readonly plan: EngagementPlanInput;
  readonly curve: EngagementCurveInput;
}

const MARGIN = 10;
const HEADING = 30;
/** Bold letters are wider, and those of a heading larger. */
const HEADING_WIDER = 1.35;

/** A whole SVG document, ASCII only. */
export function engagementSvg({ hole, tool, line, plan, curve }: EngagementInput): string {
  const left = planDrawing(plan);
  const right = curveDrawing(curve);
  const width = 3 * MARGIN + left.width + right.width;
  const heading = [hole, tool, line].filter((part) => part.trim() !== "").join(" \u00b7 ");
  return framed({
    name: "engagement",
    width,
    height: HEADING + Math.max(left.height, right.height) + MARGIN,
    title: `Engagement: ${heading}`,
    desc: `${left.title}, and beside it: ${right.title}.`,
    parts: [
      text(MARGIN, 20, cut(heading, (width - 2 * MARGIN) / HEADING_WIDER), { "font-size": 13, "font-weight": "bold" }),
      framed(left, { x: MARGIN, y: HEADING }),
      framed(right, { x: 2 * MARGIN + left.width, y: HEADING }),
    ],
  });
}

/**
 * Plan and curve side by side without a heading, no wider than there is room.
 * @param mostWidth of what is shown, px
 */
export function engagementPairSvg(plan: EngagementPlanInput, curve: EngagementCurveInput, mostWidth: number): string {
  const left = planDrawing(plan);
  const right = curveDrawing(curve);
  const width = MARGIN + left.width + right.width;
  const drawing = {
    name: "engagement",
    width,
    height: Math.max(left.height, right.height),
    title: left.title,
    desc: `${left.title}, and beside it: ${right.title}.`,
    parts: [framed(left, { x: 0, y: 0 }), framed(right, { x: MARGIN + left.width, y: 0 })],
  };
  return framed(drawing, {}, Math.min(1, mostWidth / width));
}

/** The title holds the whole heading. */
function cut(heading: string, width: number): string {
  const letters = Math.floor(width / textWidth("x"));
  return heading.length <= letters ? heading : `${[...heading].slice(0, letters - 1).join("")}\u2026`;
}
