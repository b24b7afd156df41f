/**
 * Tools from the program's own comments, where no tool table is declared: `(T5 31MM DRILL)`, `(T04 DIA .650)`,
 * `(10.2 DRILL T3)`, `T6 M6 (1/2 DRILL)`. Everything read so is marked assumed; what can be read two ways is not read.
 */
import { type Blocks, ITEM, VALUE } from "../../grammar/blocks.ts";
import type { DrillFamily, Tool } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { insideOf } from "./notes.ts";

export interface CommentTool {
  readonly tool: Tool;
  readonly span: Span;
}

/** What one comment says about a tool. */
export interface ToolWords {
  /** null: the comment names none. */
  readonly T: number | null;
  readonly DC: number;
  readonly family: DrillFamily;
  readonly SIG: number | null;
  readonly lead: number | null;
  readonly through: boolean;
}

// Working words first: a spot drill of carbide is a spot drill.
const FAMILIES: readonly (readonly [pattern: RegExp, family: DrillFamily])[] = [
  [/\bSPOT(?:TER|TING)?\b|\bCENT(?:ER|RE)[ -]?DRILL\b|\bNC DRILL\b/, "spot"],
  [/\bTAP(?:S|PING)?\b|\bTHREAD FORMER\b/, "tap"],
  [/\bREAM(?:ER|ING)?\b/, "ream"],
  [/\bC(?:OUNTER)?[ '-]?SINK\b|\bCSK\b|\bCHAMFER(?:ING)?\b/, "countersink"],
  [/\bBOR(?:E|ING)\b/, "bore"],
  [/\bINDEXABLE\b|\bINSERT(?:ED)?[ -]DRILL\b|\bDRILL WITH INSERTS\b|\bTWO[ -]INSERT\b/, "indexable"],
  [/\bSPADE\b/, "spade"],
  [/\bGUN[ -]?DRILL\b/, "gun"],
  [/\b(?:SOLID[ -])?CARBIDE\b|\bCARB\b/, "solid-carbide"],
  [/\bHSS\b|\bCOBALT\b|\bJOBBER\b|\bTWIST\b|\bSTUB\b/, "twist-hss"],
];
const DRILL = /\bDRILL(?:ING)?\b|\bDRL\b/;
/** Tools that make no holes of their own: their diameter is no drill's. */
const NO_DRILL =
  /\bEND ?MILL\b|\bFACE ?MILL\b|\bSHELL ?MILL\b|\bE\.?M\.?\b|\bBALL ?(?:MILL|NOSE)\b|\bFLY ?CUTTER\b|\bPROBE\b|\bMILL(?:ING)?\b|\bSLITTING\b|\bENGRAV/;

const NUMBER = String.raw`(\d+[ -]\d+/\d+|\d+/\d+|\d+\.?\d*|\.\d+)`;
const UNIT = String.raw`(?:\s*(MM|MILLIMET(?:ER|RE)S?|INCH(?:ES)?|IN\b\.?|"|''))`;
const DIAMETER = `(?:DIAM(?:ETER)?|DIA|DC|Ø|⌀)`;
const LABELLED = new RegExp(String.raw`(?:${DIAMETER}\.?\s*[=:]?\s*|\bD\s*[=:]?\s*)${NUMBER}${UNIT}?(?![\d/])`, "g");
const LABEL_AFTER = new RegExp(String.raw`(?<![\w./-])${NUMBER}${UNIT}?\s*(?:${DIAMETER})\b`, "g");
const WITH_UNIT = new RegExp(String.raw`(?<![\w./-])${NUMBER}${UNIT}`, "g");
const KINDS = `(?:SPOT|CENT(?:ER|RE)|TAP|REAM|C'?SINK|COUNTERSINK|BORE|BORING|INDEXABLE|INSERT|TWO|SPADE|GUN|SOLID|CARB|HSS|COBALT|JOBBER|TWIST|STUB|DRILL|DRL)`;
const BEFORE_KIND = new RegExp(String.raw`(?<![\w./#-])${NUMBER}\s+(?=${KINDS})`, "g");
const AFTER_DRILL = new RegExp(
  String.raw`\bDRILL\s+${NUMBER}(?![\d/]|\s*(?:DEG|°|X ?D\b|PL|HOLES|DEEP|PLACES|OFF))`,
  "g",
);
/** Lengths in a comment that are not the diameter. */
const OTHER_LENGTH =
  /^\s*(?:LONG|LG|LOC|DEEP|DEPTH|STICK|FLUTE|FL\b|REACH|OAL|SHANK|SHK|HOLDER|PECK|PITCH|LENGTH|RAD|R\b|THRU|THICK|OUT\b)/;
const OTHER_LABEL =
  /(?:LENGTH|LOC|DEEP|DEPTH|STICK ?OUT|STICKOUT|FLUTE|REACH|OAL|SHANK|HOLDER|PECK|PITCH|\bLU|\bZ|\bR|\bS|\bF)\s*[=:]?\s*$/;

const METRIC_TAP = /\bM\s?(\d+\.?\d*)(?:\s*[X*]\s*(\d*\.?\d+))?(?!\d)/;
const INCH_TAP = /(?<![\w./-])(\d+\/\d+|\d*\.\d+)\s*-\s*(\d+)(?!\d|\/)/;
/** Coarse pitches in mm, from memory of ISO 261. */
const COARSE: ReadonlyMap<number, number> = new Map([
  [2, 0.4],
  [2.5, 0.45],
  [3, 0.5],
  [4, 0.7],
  [5, 0.8],
  [6, 1],
  [8, 1.25],
  [10, 1.5],
  [12, 1.75],
  [14, 2],
  [16, 2],
  [18, 2.5],
  [20, 2.5],
  [22, 2.5],
  [24, 3],
  [27, 3],
  [30, 3.5],
  [36, 4],
]);

/**
 * Reads a comment as the name of a tool.
 * @param comment what stands inside the comment
 * @param units of the program, for a size without a unit; null unknown
 * @returns null where no tool is named, or where its diameter can be read in two ways
 */
export function readToolComment(comment: string, units: UnitSystem | null): ToolWords | null {
  const text = comment
    .toUpperCase()
    .replace(/[‘’′]/g, "'")
    .replace(/[“”″]/g, '"')
    .replace(/,(?=\d)/g, ".");
  if (NO_DRILL.test(text) && !DRILL.test(text)) return null;
  const family = FAMILIES.find(([pattern]) => pattern.test(text))?.[1] ?? null;
  const named = family !== null || DRILL.test(text);
  const T = toolNumber(text);
  const angle = /(?<![\d.])(\d{2,3})\s*(?:DEG(?:REES?)?\b|°)/.exec(text);
  const SIG = angle !== null && Number(angle[1]) >= 60 && Number(angle[1]) <= 180 ? Number(angle[1]) : null;
  const through = /\b(?:THRU|THROUGH)[ -](?:TOOL|SPINDLE|COOLANT)|\bCOOLANT[ -](?:THRU|THROUGH)\b/.test(text);
  if (family === "tap") {
    const tap = tapSize(text);
    if (tap !== null) return { T, family, SIG: null, through, ...tap };
  }
  // The T number is no size, nor is the length or angle in `10.2 x 130`.
  const rest = text.replace(TOOL_NUMBER, (all) => " ".repeat(all.length)).replace(TIMES, "$1");
  const DC = diameter(rest, named, units);
  if (DC === null) return null;
  return { T, DC, family: family ?? "twist-hss", SIG, lead: null, through };
}

const TIMES = /(?<![A-Z\d.])(\d+(?:\.\d*)?|\.\d+)\s*[X×]\s*\d+(?:\.\d+)?(?![\d.]|\s*D\b)/g;
const TOOL_NUMBER = /(?<![A-Z0-9])T(?:OOL)?\s*(?:NO\.?|NUMBER|#)?\s*[-:]?\s*0*(\d{1,4})(?![\d.])(?:\s*[-:=])?/;

function toolNumber(text: string): number | null {
  const match = TOOL_NUMBER.exec(text);
  return match === null ? null : Number(match[1]);
}

function tapSize(text: string): { DC: number; lead: number | null } | null {
  const metric = METRIC_TAP.exec(text);
  if (metric !== null) {
    const DC = Number(metric[1]);
    const lead = metric[2] === undefined ? (COARSE.get(DC) ?? null) : Number(metric[2]);
    return DC > 0 && DC <= 100 ? { DC, lead } : null;
  }
  const inch = INCH_TAP.exec(text);
  if (inch === null) return null;
  const size = value(inch[1] ?? "");
  const threads = Number(inch[2]);
  return size > 0 && threads > 0 ? { DC: size * 25.4, lead: 25.4 / threads } : null;
}

function diameter(text: string, named: boolean, units: UnitSystem | null): number | null {
  // The surest way of writing rules; two different sizes written the same way rule nothing.
  for (const [pattern, needsName] of [
    [LABELLED, false],
    [LABEL_AFTER, false],
    [WITH_UNIT, true],
    [BEFORE_KIND, true],
    [AFTER_DRILL, true],
  ] as const) {
    if (needsName && !named) continue;
    const found = new Set<number>();
    for (const match of text.matchAll(pattern)) {
      const after = text.slice(match.index + match[0].length);
      const before = text.slice(0, match.index);
      if (pattern !== LABELLED && (OTHER_LENGTH.test(after) || OTHER_LABEL.test(before))) continue;
      if (/^\s*(?:DEG|°)/.test(after)) continue;
      const size = inMm(match[1] ?? "", match[2], units);
      if (size !== null) found.add(Math.round(size * 1e6) / 1e6);
      else if (pattern === LABELLED || pattern === LABEL_AFTER) return null;
    }
    if (found.size > 1) return null;
    for (const size of found) return size;
  }
  return null;
}

function value(written: string): number {
  const parts = /^(?:(\d+)[ -])?(\d+)\/(\d+)$/.exec(written);
  if (parts === null) return Number(written);
  return Number(parts[1] ?? 0) + Number(parts[2]) / Number(parts[3]);
}

/** A written size in mm; null where its unit cannot be told or no drill has it. */
function inMm(written: string, unit: string | undefined, units: UnitSystem | null): number | null {
  const size = value(written);
  if (!Number.isFinite(size) || size <= 0) return null;
  if (unit !== undefined) {
    const mm = unit.startsWith("M") ? size : size * 25.4;
    return mm <= 300 ? mm : null;
  }
  // A fraction is a size in inches wherever it stands.
  if (written.includes("/")) return size <= 6 ? size * 25.4 : null;
  if (units === "inch") return size <= 6 ? size * 25.4 : null;
  // `.650` is how an inch size is written; in a metric program it may be either.
  if (units === "mm") return written.startsWith(".") || size > 200 ? null : size;
  return null;
}

/** Comments are read anew at every keystroke and hardly ever change. */
const read = new Map<string, ToolWords | null>();
const MOST_READ = 5000;

function readOnce(comment: string, units: UnitSystem | null): ToolWords | null {
  const key = `${units ?? ""}|${comment}`;
  let words = read.get(key);
  if (words === undefined) {
    if (read.size >= MOST_READ) read.clear();
    words = readToolComment(comment, units);
    read.set(key, words);
  }
  return words;
}

/** Tools that the comments of a program name, by T. */
export function commentTools(
  blocks: Blocks,
  commented: readonly number[],
  units: UnitSystem | null,
): ReadonlyMap<number, CommentTool> {
  const found = new Map<number, CommentTool | null>();
  for (const block of commented) {
    const first = blocks.firstItem(block);
    const count = blocks.itemCount(block);
    const text = blocks.textOf(block);
    for (let item = first; item < first + count; item++) {
      const kind = blocks.kind(item);
      if (kind !== ITEM.comment && kind !== ITEM.lineComment) continue;
      const start = blocks.start(item);
      const end = blocks.end(item);
      const inside = insideOf(text.slice(start, end));
      if (/^\s*CUT\b/i.test(inside)) continue;
      const words = readOnce(inside, units);
      if (words === null) continue;
      const T = words.T ?? toolOfBlock(blocks, block) ?? neighbour(blocks, block);
      if (T === null || T === 0) continue;
      const known = found.get(T);
      if (known === undefined) found.set(T, { tool: asTool(T, words), span: { block, start, end } });
      // Two comments that differ: neither is taken.
      else if (known !== null && Math.abs(known.tool.DC - words.DC) > 0.01) found.set(T, null);
    }
  }
  const tools = new Map<number, CommentTool>();
  for (const [T, each] of found) if (each !== null) tools.set(T, each);
  return tools;
}

function toolOfBlock(blocks: Blocks, block: number): number | null {
  const first = blocks.firstItem(block);
  const end = first + blocks.itemCount(block);
  for (let item = first; item < end; item++) {
    if (blocks.kind(item) !== 84) continue;
    const form = blocks.form(item);
    if (form === VALUE.integer || form === VALUE.real) return Math.round(blocks.value(item));
  }
  return null;
}

/** A comment on a line of its own names the tool of the line after it, else of the line before it. */
function neighbour(blocks: Blocks, block: number): number | null {
  const line = blocks.lineOf(block);
  for (const step of [1, -1]) {
    const other = line + step;
    if (other < 0 || other >= blocks.count) continue;
    const T = toolOfBlock(blocks, blocks.blockAt(other));
    if (T !== null) return T;
  }
  return null;
}

function asTool(T: number, words: ToolWords): Tool {
  return {
    T,
    name: null,
    family: words.family,
    familyAssumed: true,
    DC: words.DC,
    SIG: words.SIG,
    LU: null,
    PL: null,
    NOF: null,
    ZEFP: null,
    KAPR: null,
    RPMX: null,
    hand: "right",
    edge: null,
    point: null,
    r1: null,
    coolant: words.through ? "through" : null,
    minPressure: null,
    minFlow: null,
    lead: words.lead,
    H: [],
    windows: [],
    entry: { maxIncline: null, light: null, medium: null, heavy: null, extreme: null, fMin: null },
    price: null,
    edges: null,
    holesPerEdge: null,
    observed: [],
    path: `comment.T${T}`,
    assumed: true,
  };
}
