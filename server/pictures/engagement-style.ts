/**
 * What the engagement pictures share: colours, hatching, legend and frame. Mid tones on no background of their own, as
 * in the spindle's picture, because a picture in a hover cannot know the theme; nothing is told by colour alone.
 */
import { type Attributes, element, escapeText, text } from "./svg.ts";

export type EngagementClass = "none" | "light" | "medium" | "heavy" | "extreme";

export const GREY = "#808080";
export const METAL = "#3a86d4";
export const RIM = "#c07a1e";
export const FONT_SIZE = 11;

/** Width of a letter on the safe side: the wide one of the common sans-serif fonts. */
const LETTER = 6.3;
export const textWidth = (content: string): number => content.length * LETTER;

export interface HatchLook {
  readonly stroke: string;
  /** Distance of the hatching lines; the harder, the denser. */
  readonly gap: number;
  /** Degrees. */
  readonly slant: number;
  readonly crossed: boolean;
}

const CLASS_LOOK: Readonly<Record<EngagementClass, HatchLook>> = {
  none: { stroke: GREY, gap: 12, slant: 0, crossed: false },
  light: { stroke: "#2f9a58", gap: 6, slant: -45, crossed: false },
  medium: { stroke: RIM, gap: 5.5, slant: 45, crossed: false },
  heavy: { stroke: "#d6454d", gap: 3.2, slant: 45, crossed: false },
  extreme: { stroke: "#b05cc8", gap: 4, slant: 45, crossed: true },
};

/** From the lightest to the hardest. */
export const CLASSES = Object.keys(CLASS_LOOK) as readonly EngagementClass[];

export const classStroke = (of: EngagementClass): string => CLASS_LOOK[of].stroke;
export const classHatch = (of: EngagementClass): string => `hatch-${of}`;

export function classPattern(of: EngagementClass): string {
  return hatch(classHatch(of), CLASS_LOOK[of]);
}

/** A pattern of slanted lines, to be put into a document once and filled with `url(#id)`. */
export function hatch(id: string, { stroke, gap, slant, crossed }: HatchLook): string {
  const line = { x1: 0, y1: 0, y2: gap, x2: 0, stroke, "stroke-width": 2.2 };
  const across = { x1: 0, y1: 0, x2: gap, y2: 0, stroke, "stroke-width": 2.2 };
  return element(
    "pattern",
    { id, width: gap, height: gap, patternUnits: "userSpaceOnUse", patternTransform: `rotate(${slant})` },
    element("line", line),
    ...(crossed ? [element("line", across)] : []),
  );
}

/** One entry of a legend: a sample of 20 by 10 pixels, and its name. */
export interface Key {
  readonly name: string;
  sample(x: number, y: number): string;
}

/** Keys side by side, centred on `middle`. @param y line of the text */
export function legend(middle: number, y: number, keys: readonly Key[]): string {
  const width = (key: Key): number => 25 + textWidth(key.name);
  const gap = 12;
  let x = middle - (keys.reduce((sum, key) => sum + width(key) + gap, 0) - gap) / 2;
  const out: string[] = [];
  for (const key of keys) {
    out.push(key.sample(x, y - 9), text(x + 25, y, key.name));
    x += width(key) + gap;
  }
  return out.join("");
}

/** A picture without its frame, so that it can stand alone or beside another. */
export interface Drawing {
  /** Begins the ids of title and description, which must differ within a document. */
  readonly name: string;
  readonly width: number;
  readonly height: number;
  readonly title: string;
  readonly desc: string;
  readonly parts: readonly string[];
}

/**
 * @param place where it stands in another; left out: a document of its own
 * @param scale of the size at which it is shown
 */
export function framed(drawing: Drawing, place: Attributes = {}, scale = 1): string {
  const { name, width, height, title, desc, parts } = drawing;
  const frame: Attributes = {
    xmlns: "http://www.w3.org/2000/svg",
    ...place,
    width: width * scale,
    height: height * scale,
    viewBox: `0 0 ${Math.ceil(width)} ${Math.ceil(height)}`,
    "font-family": "sans-serif",
    "font-size": FONT_SIZE,
    fill: GREY,
    role: "img",
    "aria-labelledby": `${name}-title ${name}-desc`,
  };
  return element(
    "svg",
    frame,
    element("title", { id: `${name}-title` }, escapeText(title)),
    element("desc", { id: `${name}-desc` }, escapeText(desc)),
    ...parts,
  );
}
