/**
 * One comment read as the name of a tool: `T5 31MM DRILL`, `T04 DIA .650`, `#7 DRILL`, `12H7 REAMER`, `1/2-13 TAP`,
 * `VHM BOHRER 8,5`. What can be read two ways is not read.
 */
import type { DrillFamily } from "../setup/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { letterDrill, numberDrill, numberScrew } from "./drill-sizes.ts";
import { withoutOffsets } from "./offset-words.ts";

/** What one comment says about a tool. */
export interface ToolWords {
  /** null: the comment names none. */
  readonly T: number | null;
  readonly DC: number;
  readonly family: DrillFamily;
  /** What the tool does, where a word of the comment says so. */
  readonly work: "drill" | "ream" | "tap" | "other" | null;
  readonly SIG: number | null;
  readonly lead: number | null;
  readonly through: boolean;
}

// Working words first: a spot drill of carbide is a spot drill. A tap drill is a drill.
const FAMILIES: readonly (readonly [pattern: RegExp, family: DrillFamily])[] = [
  [
    /\bSPOT(?:TER|TING)?\b|\b(?:CENT(?:ER|RE)|CTR)[ -]?DRILL\b|\bC-DRILL\b|\bNC DRILL\b|ZENTRIERBOHRER\b|ANBOHRER\b/,
    "spot",
  ],
  [/\bTAP(?:S|PING)?\b(?! ?-?(?:DRILL|DRL))|\bTHREAD FORMER\b|GEWINDEBOHRER\b|GEWINDEFORMER\b/, "tap"],
  [/\bREAM(?:ER|ING)?\b|REIBAHLE\b/, "ream"],
  [/\bC(?:OUNTER)?[ '-]?SINK\b|\bCSK\b|\bCHAMFER(?:ING)?\b|KEGELSENKER\b/, "countersink"],
  [/\bBOR(?:E|ING)\b|\bAUSBOHR/, "bore"],
  [
    /\bINDEXABLE\b|\bINSERT(?:ED)?[ -]DRILL\b|\bDRILL WITH INSERTS\b|\bTWO[ -]INSERT\b|(?<!\b(?:LETTER|LTR\.?) )\bU[ -]DRILL\b|\bWENDEPLATTEN/,
    "indexable",
  ],
  [/\bSPADE\b/, "spade"],
  [/\bGUN[ -]?DRILL\b|EINLIPPENBOHRER\b/, "gun"],
  [/\b(?:SOLID[ -])?CARBIDE\b|\bCARB\b|\bV?HM(?:\b|BOHRER)|HARTMETALL/, "solid-carbide"],
  [/\bHSS(?:[ -]?(?:E|CO))?\b|\bCOBALT\b|\bJOBBER\b|\bTWIST\b|\bSTUB\b|\bSPIRALBOHRER\b/, "twist-hss"],
];
const DRILL = /\bDRILL(?:ING)?\b|\bDRL\b|BOHRER\b/;
/** Tools that make no holes of their own: their diameter is no drill's. */
const NO_DRILL =
  /\bEND ?MILL\b|\bFACE ?MILL\b|\bSHELL ?MILL\b|\bE\.?M\.?\b|\bBALL ?(?:MILL|NOSE)\b|\bFLY ?CUTTER\b|\bPROBE\b|\bMILL(?:ING)?\b|\bSLITTING\b|\bENGRAV|FR(?:Ä|AE)SER/;
/** Two works in one comment: a line of the plan, not the name of a tool. */
const TWO_WORKS =
  /\b(?:DRILL|DRL|TAP|REAM(?:ER)?|SPOT|BORE|CENTER) ?(?:AND|THEN|\+|&) ?(?:DRILL|DRL|TAP|REAM(?:ER)?|SPOT|BORE|C'?SINK|CHAMFER)\b/;

// Blanks are single when these are used and digits are counted: the time to read a comment is linear in its length.
const NUMBER = String.raw`(\d{1,3}[ -]\d{1,3}/\d{1,3}|\d{1,3}/\d{1,3}|\d{1,5}(?:\.\d{0,6})?|\.\d{1,6})(?![\d/])`;
const UNIT = String.raw`(?: ?(MM|MILLIMET(?:ER|RE)S?|INCH(?:ES)?|IN\b\.?(?! (?:A|THE|ALL|EACH|ONE|TWO|TOTAL|ROW|LINE|PLACES?|STEPS?|PASS(?:ES)?|CORNERS?|SIDES?|FACES?|PARTS?|PLATES?|OP|SETUP)\b)|"|''))`;
const DIAMETER = `(?:DIAM(?:ETER)?|DIA|DC|Ø|⌀)`;
/** Tolerance class of a reamer (ISO 286-1): `H7`. */
const FIT = `(?: ?[EFGHJKMNP]\\d{1,2}\\b)`;
const LABELLED = new RegExp(String.raw`(?:${DIAMETER}\.? ?[=:]? ?|\bD ?[=:]? ?)${NUMBER}${UNIT}?`, "g");
const LABEL_AFTER = new RegExp(String.raw`(?<![\w./-])${NUMBER}${UNIT}? ?(?:${DIAMETER})\b`, "g");
const WITH_UNIT = new RegExp(String.raw`(?<![\w./-])${NUMBER}${UNIT}`, "g");
const KINDS = `(?:SPOT|CENT(?:ER|RE)|TAP|REAM|C'?SINK|COUNTERSINK|BORE|BORING|INDEXABLE|INSERT|TWO|SPADE|GUN|SOLID|CARB|HSS|COBALT|JOBBER|TWIST|STUB|DRILL|DRL|U-DRILL|V?HM\\b|VOLLHARTMETALL|[A-ZÄÖÜ]{0,20}BOHRER\\b|REIBAHLE|KEGELSENKER)`;
const BEFORE_KIND = new RegExp(String.raw`(?<![\w./#-])${NUMBER}${FIT}? (?=${KINDS})`, "g");
const AFTER_KIND = new RegExp(
  String.raw`(?:\bDRILL|\bDRL|BOHRER|\bREAMER|REIBAHLE|KEGELSENKER) ${NUMBER}${UNIT}?(${FIT})?`,
  "g",
);
/** What may follow a whole number that follows the kind of tool: `DRILL 5 HOLES` and `DRILL 5 SIDES` name no size. */
const SIZE_ENDS_HERE =
  /^(?:$| ?[,;:)/(]| -| ?T ?\d| ?(?:MM|HSS|COBALT|CARB|SOLID|V?HM|VOLLHARTMETALL|JOBBER|STUB|LU|LONG SERIES|THRU[ -]|THROUGH[ -]|COOLANT|IK\b|\d+(?:\.\d*)? ?(?:DEG|GRAD|°)))/;
/** The hole and not the tool: `SPOT 10 MM HOLES`. */
const HOLE = /^ ?(?:DIA |THRU |THROUGH |TAPPED |BLIND )?(?:HOLES?\b|BORES?\b|THREADS?\b|L(?:O|OE|Ö)CH|BOHRUNG)/;
/** Lengths in a comment that are not the diameter. */
const OTHER_LENGTH =
  /^ ?(?:LONG|LG|LOC|DEEP|DEPTH|STICK|FLUTE|FL\b|REACH|OAL|SHANK|SHK|HOLDER|PECK|PITCH|LENGTH|RAD|R\b|THRU|THICK|OUT\b|TIEF|LANG\b)/;
const OTHER_LABEL =
  /(?:LENGTH|LOC|DEEP|DEPTH|STICK ?OUT|STICKOUT|FLUTE|REACH|OAL|SHANK|HOLDER|PECK|PITCH|\bLU|\bZ|\bR|\bS|\bF|\bNO\.?|NUMBER|\bOP|STEP|HOLE) ?[=:]? ?$/;

const MATERIAL = "(?:(?:SOLID |CARBIDE|CARB|COBALT|HSS|JOBBER|STUB|SCREW MACHINE|TAP) )";
/** `#7 DRILL`, `NO. 7 JOBBER DRILL`; not `HOLE #7 DRILL`, and `DRILL #2` may be the second one. */
const NUMBER_SIZE = new RegExp(
  String.raw`(?<=^| {2}|[-:,=(] ?)(?:#|NO\.? ?|NUMBER )(\d{1,2}) ${MATERIAL}{0,2}(?:DRILL|DRL)\b`,
);
/** `LETTER F DRILL`, `LTR F`, `"F" DRILL`, `DRILL LETTER F`. */
const LETTER_SIZE = /\b(?:LETTER|LTR\.?) (?:SIZE )?"?([A-Z])"?(?![A-Z\d])|"([A-Z])" (?:DRILL|DRL)\b/;

const METRIC_TAP = /\bM ?(\d{1,3}(?:\.\d{1,3})?)(?: ?[X*×] ?(\d?\.?\d{1,3}))?(?![\d.])/;
const INCH_TAP = /(?<![\w./-])(\d{1,2}[ -]\d{1,2}\/\d{1,2}|\d{1,2}\/\d{1,2}|\d?\.\d{1,4}) ?- ?(\d{1,2})(?![\d/.])/;
/** `#10-24`, `10-32 UNF`, `1-8 UNC`: a number alone would be any two numbers. */
const SCREW_TAP = /#(\d{1,2}) ?- ?(\d{2})(?!\d)|(?<![\w./-])(\d{1,2}) ?- ?(\d{1,2}) ?UN[CEFJS]{0,2}\b/;
/** Pipe threads are named by the pipe. */
const PIPE = /\bNPTF?\b|\bNPSF?\b|\bBSPP?T?\b|\bPIPE\b|\b(?:G|R|RC|RP) ?\d\/\d/;
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

/** A longer comment is a sentence. */
const LONGEST = 200;

/**
 * Reads a comment as the name of a tool.
 * @param comment what stands inside the comment
 * @param units of the program, for a size without a unit; null unknown
 * @param called the tool that is called where the comment stands, for one that names none
 * @returns null where no tool is named, or where its diameter can be read in two ways
 */
export function readToolComment(
  comment: string,
  units: UnitSystem | null,
  called: number | null = null,
): ToolWords | null {
  if (comment.length > LONGEST) return null;
  const text = comment
    .toUpperCase()
    .replace(/[‘’′]/g, "'")
    .replace(/[“”″]/g, '"')
    .replace(/\s+/g, " ")
    .trim()
    // A comma is a decimal point between a whole number and digits that hold no point themselves.
    .replace(/(?<![\d.,])(\d{1,5}),(?=\d{1,4}(?![\d.,]))|,(?=\d)/g, (all, before) =>
      before === undefined ? all : `${before}.`,
    )
    // Nor is a depth a size.
    .replace(/ (?:DEEP|DEPTH|TIEF) ?:? ?\d+(?:\.\d*)?(?: ?MM)?/g, " ")
    // What the tool is for names another size: `6.8 DRILL FOR M8`.
    .replace(/ (?:FOR|F(?:UE|Ü)R) .*$/, "");
  if (NO_DRILL.test(text) && !DRILL.test(text)) return null;
  // `4X 8.5` may be four places or four millimetres times a length.
  if (TWO_WORKS.test(text) || COUNT_OR_SIZE.test(text)) return null;
  const family = FAMILIES.find(([pattern]) => pattern.test(text))?.[1] ?? null;
  const isDrill = DRILL.test(text);
  const T = toolNumber(text);
  const angle = /(?<![\d.])(\d{2,3}) ?(?:DEG(?:REES?)?\b|GRAD\b|°)/.exec(text);
  const SIG = angle !== null && Number(angle[1]) >= 60 && Number(angle[1]) <= 180 ? Number(angle[1]) : null;
  const through =
    /\b(?:THRU|THROUGH)[ -](?:TOOL|SPINDLE|COOLANT)|\bCOOLANT[ -](?:THRU|THROUGH)\b|\bIKZ?\b|INNENK(?:Ü|UE)HLUNG/.test(
      text,
    );
  // The T number is no size, nor is the length or angle in `10.2 x 130`.
  const rest = text.replace(TOOL_NUMBER, (all) => " ".repeat(all.length));
  const common = { T, family: family ?? "twist-hss", work: workOf(family, isDrill), through } as const;
  if (family === "tap") {
    if (PIPE.test(text)) return null;
    const tap = tapSize(rest);
    if (tap !== null) return { ...common, SIG: null, ...tap };
  }
  const named = family !== null || isDrill;
  const sized = (words: string): number | null => diameter(words.replace(TIMES, "$1"), family, named, units);
  const { text: sizes, open } = withoutOffsets(rest, T ?? called, family === "ream");
  const DC = sized(sizes);
  if (DC === null) return null;
  if (open !== null) {
    // `D12` beside another size: the one is the drill, the other its offset, and nobody says which.
    const other = sized(open);
    if (LEADING_POINT.test(open) || (other !== null && Math.abs(other - DC) > 0.02)) return null;
  }
  return { ...common, DC, SIG, lead: null };
}

/** `.5`: a size in inches, which a metric program does not say. */
const LEADING_POINT = /(?<![\w.])\.\d/;

function workOf(family: DrillFamily | null, isDrill: boolean): ToolWords["work"] {
  if (family === "tap" || family === "ream") return family;
  if (family === "spot" || family === "countersink" || family === "bore") return "other";
  return isDrill || family !== null ? "drill" : null;
}

const TIMES = /(?<![A-Z\d.])(\d{1,5}(?:\.\d{0,6})?|\.\d{1,6}) ?[X×] ?\d{1,5}(?:\.\d{1,6})?(?![\d.]| ?D\b)/g;
const COUNT_OR_SIZE = /(?<![\w.])\d{1,3}[X×] \d/;
const TOOL_NUMBER = /(?<![A-Z0-9])T(?:OOL)? ?(?:NO\.?|NUMBER|#)? ?[-:]? ?0{0,4}(\d{1,4})(?![\d.])(?: ?[-:=])?/;

/**
 * A comment that lists several tools, cut before each of them: `T1 SPOT 12 / T6 DRILL 8.5`. One that names no more than
 * one is left whole; where sizes stand before the first number it is not clear which belongs to which.
 */
export function toolsApart(comment: string): readonly string[] {
  const numbers = [...comment.matchAll(new RegExp(TOOL_NUMBER.source, "gi"))];
  if (numbers.length < 2) return [comment];
  const starts = numbers.map((match) => match.index);
  if (/\d/.test(comment.slice(0, starts[0]))) return [];
  return starts.map((start, i) => comment.slice(start, starts[i + 1]));
}

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
  if (inch !== null) return inchTap(value(inch[1] ?? ""), Number(inch[2]));
  const screw = SCREW_TAP.exec(text);
  if (screw === null) return null;
  if (screw[1] !== undefined) return inchTap(numberScrew(Number(screw[1])), Number(screw[2]));
  // `1-8 UNC` is one inch, `10-32 UNF` is number ten: number sizes have 24 threads and more, whole inches 16 and fewer.
  const size = Number(screw[3]);
  const threads = Number(screw[4]);
  return inchTap(threads >= 24 ? numberScrew(size) : threads <= 16 && size <= 4 ? size : null, threads);
}

function inchTap(size: number | null, threads: number): { DC: number; lead: number } | null {
  return size !== null && size > 0 && threads > 0 ? { DC: size * 25.4, lead: 25.4 / threads } : null;
}

function diameter(text: string, family: DrillFamily | null, named: boolean, units: UnitSystem | null): number | null {
  const written = writtenSize(text, named, units);
  if (written === "ambiguous") return null;
  const coded = codedSize(text, family);
  // A size with a number or letter and another in figures: they must agree.
  if (written !== null && coded !== null && Math.abs(written - coded) > 0.02) return null;
  return coded ?? written;
}

/** A number or letter size in mm. Those of centre drills are sizes of another kind. */
function codedSize(text: string, family: DrillFamily | null): number | null {
  if (family !== null && family !== "twist-hss" && family !== "solid-carbide") return null;
  const number = NUMBER_SIZE.exec(text);
  const letter = LETTER_SIZE.exec(text);
  const size =
    number !== null
      ? numberDrill(Number(number[1]))
      : letter !== null
        ? letterDrill(letter[1] ?? letter[2] ?? "")
        : null;
  return size === null ? null : size * 25.4;
}

function writtenSize(text: string, named: boolean, units: UnitSystem | null): number | "ambiguous" | null {
  // The surest way of writing rules; two different sizes written the same way rule nothing.
  for (const [pattern, needsName] of [
    [LABELLED, false],
    [LABEL_AFTER, false],
    [WITH_UNIT, true],
    [BEFORE_KIND, true],
    [AFTER_KIND, true],
  ] as const) {
    if (needsName && !named) continue;
    const found = new Set<number>();
    for (const match of text.matchAll(pattern)) {
      const after = text.slice(match.index + match[0].length);
      const before = text.slice(0, match.index);
      if (pattern !== LABELLED && (OTHER_LENGTH.test(after) || OTHER_LABEL.test(before))) continue;
      if (/^ ?(?:DEG|GRAD|°)/.test(after) || HOLE.test(after)) continue;
      const number = match[1] ?? "";
      if (pattern === AFTER_KIND && /^ ?(?:X ?D\b|PL)/.test(after)) continue;
      if (pattern === AFTER_KIND && /^\d+$/.test(number) && match[3] === undefined && !SIZE_ENDS_HERE.test(after))
        continue;
      const size = inMm(number, match[2], units);
      if (size !== null) found.add(Math.round(size * 1e6) / 1e6);
      else if (pattern === LABELLED || pattern === LABEL_AFTER) return "ambiguous";
    }
    if (found.size > 1) return "ambiguous";
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
