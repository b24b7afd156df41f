/**
 * Cut notes: comments whose first word is CUT, which carry the drawing's facts with the program. The entry language in
 * them also stands under `entries:` of a setup. Spacing and case are free; lengths are in the unit of the text.
 */
import type { CutNote, EntryForm } from "./entry.ts";

const ENTRY_FORMS =
  "INCLINE 30 DEG, EDGE AREA 30 PCT, EDGE AXIS IN 3.5, EDGE AXIS OUT 4., RIDGE FLANK 30 DEG OFFSET 2., " +
  "CYLINDER D120 CONVEX, CYLINDER D120 CONCAVE OFFSET 4., CHAIN PITCH 15., WEB PITCH 15., SKIN or FLAT";

/** Hardness scales as they are written in a note (capitals) and in a setup. */
const SCALES: ReadonlyMap<string, string> = new Map([
  ["HB", "HB"],
  ["HBW", "HB"],
  ["HRC", "HRC"],
  ["HV", "HV"],
  ["MPA", "MPa"],
  ["KSI", "ksi"],
]);

/**
 * Reads the inside of a comment.
 * @param comment what stands between the parentheses
 * @param mmPerUnit mm in one length unit of the program (1 or 25.4)
 * @returns null where the comment is no cut note: its first word is not CUT, or it is a `CUT=` line of our own
 */
export function readCutNote(comment: string, mmPerUnit: number): CutNote | { readonly problem: string } | null {
  const head = /^[ \t]*CUT(?=[ \t=]|$)[ \t]*/i.exec(comment);
  if (head === null || comment[head[0].length] === "=") return null;
  const body = comment.slice(head[0].length).trim();
  const [kind = "", ...rest] = body.split(/[ \t]+/);
  const inner = rest.join(" ");
  switch (kind.toUpperCase()) {
    case "ENTRY":
    case "EXIT": {
      const form = readEntry(inner, mmPerUnit);
      if (typeof form === "string") return { problem: form };
      return { kind: kind.toUpperCase() === "ENTRY" ? "entry" : "exit", form };
    }
    case "MATERIAL":
      return readMaterial(rest);
    case "ALLOW":
      return readAllow(inner);
    default:
      return {
        problem: `a cut note reads CUT ENTRY, CUT EXIT, CUT MATERIAL or CUT ALLOW, not ${kind === "" ? "CUT alone" : `CUT ${shown(kind)}`}; begin a plain comment with another word`,
      };
  }
}

/**
 * Reads what an entry or exit is, such as `INCLINE 30 DEG`.
 * @param mmPerUnit mm in one length unit of the text
 * @returns the form in mm and degrees, or one sentence on what is wrong and what is expected
 */
export function readEntry(text: string, mmPerUnit: number): EntryForm | string {
  const words = new Words(text);
  const kind = words.next();
  const form = readForm(kind, words, mmPerUnit);
  if (typeof form === "string") return form;
  const extra = words.next();
  return extra === "" ? form : `${shown(extra)} is too much after ${kind}; expected ${exampleOf(kind)}`;
}

/** Writes a form so that `readEntry` gives it back; lengths are rounded to four decimals of the unit. */
export function writeEntry(form: EntryForm, mmPerUnit: number): string {
  const length = (mm: number) => written(mm / mmPerUnit);
  switch (form.kind) {
    case "flat":
      return "FLAT";
    case "skin":
      return "SKIN";
    case "incline":
      return `INCLINE ${plain(form.angleDeg)} DEG`;
    case "edge-area":
      return `EDGE AREA ${plain(form.areaShare * 100)} PCT`;
    case "edge-axis":
      return `EDGE AXIS ${form.insideMm < 0 ? "OUT" : "IN"} ${length(Math.abs(form.insideMm))}`;
    case "ridge":
      return `RIDGE FLANK ${plain(form.flankDeg)} DEG${offset(form.offsetMm, length)}`;
    case "cylinder":
      return `CYLINDER D${plain(form.diameterMm / mmPerUnit)} ${form.shape.toUpperCase()}${offset(form.offsetMm, length)}`;
    case "chain":
      return `${form.sides === 1 ? "CHAIN" : "WEB"} PITCH ${length(form.pitchMm)}`;
  }
}

/** Words and numbers apart, whether or not white space stands between: `D120`, `30DEG`. */
class Words {
  readonly #parts: readonly string[];
  #at = 0;

  constructor(text: string) {
    this.#parts = text.toUpperCase().match(/[-+]?(?:[0-9]+\.?[0-9]*|\.[0-9]+)|[A-Z]+|[^ \t]/g) ?? [];
  }

  next(): string {
    return this.#parts[this.#at++] ?? "";
  }

  /** Takes the word where it stands next. */
  take(word: string): boolean {
    if (this.#parts[this.#at] !== word) return false;
    this.#at++;
    return true;
  }

  /** The number that stands next, NaN where none does. */
  number(): number {
    const part = this.#parts[this.#at] ?? "";
    if (!/[0-9]/.test(part)) return Number.NaN;
    this.#at++;
    return Number(part);
  }
}

function readForm(kind: string, words: Words, mmPerUnit: number): EntryForm | string {
  switch (kind) {
    case "FLAT":
      return { kind: "flat" };
    case "SKIN":
      return { kind: "skin" };
    case "INCLINE": {
      const angleDeg = angle(words);
      return angleDeg === null ? wrongAngle(kind) : { kind: "incline", angleDeg };
    }
    case "EDGE":
      return readEdge(words, mmPerUnit);
    case "RIDGE": {
      if (!words.take("FLANK")) return `RIDGE needs FLANK and its angle; expected ${exampleOf(kind)}`;
      const flankDeg = angle(words);
      if (flankDeg === null) return wrongAngle(kind);
      const offsetMm = readOffset(words, mmPerUnit);
      return offsetMm === null
        ? `OFFSET needs a length; expected ${exampleOf(kind)}`
        : { kind: "ridge", flankDeg, offsetMm };
    }
    case "CYLINDER":
      return readCylinder(words, mmPerUnit);
    case "CHAIN":
    case "WEB": {
      const pitch = words.take("PITCH") ? words.number() : Number.NaN;
      if (!(pitch > 0)) return `${kind} needs PITCH and a length over 0; expected ${exampleOf(kind)}`;
      return { kind: "chain", pitchMm: pitch * mmPerUnit, sides: kind === "CHAIN" ? 1 : 2 };
    }
    default:
      return `${kind === "" ? "nothing" : shown(kind)} is no entry form; expected ${ENTRY_FORMS}`;
  }
}

function readEdge(words: Words, mmPerUnit: number): EntryForm | string {
  if (words.take("AREA")) {
    const percent = words.number();
    const hasUnit = words.take("PCT");
    if (!(percent > 0 && percent < 100))
      return `EDGE AREA needs a share over 0 and under 100 PCT; expected ${exampleOf("EDGE")}`;
    // 0.3 may be a share of one or of a hundred.
    if (percent < 1 && !hasUnit)
      return `EDGE AREA ${percent} can be ${percent * 100} PCT or ${percent} PCT; write the one meant`;
    return { kind: "edge-area", areaShare: percent / 100 };
  }
  if (!words.take("AXIS")) return `EDGE needs AREA or AXIS; expected ${exampleOf("EDGE")}`;
  const side = words.next();
  const distance = words.number();
  if ((side !== "IN" && side !== "OUT") || !(distance >= 0)) {
    return `EDGE AXIS needs IN or OUT and a distance without a sign; expected ${exampleOf("EDGE")}`;
  }
  return { kind: "edge-axis", insideMm: side === "IN" ? distance * mmPerUnit : 0 - distance * mmPerUnit };
}

function readCylinder(words: Words, mmPerUnit: number): EntryForm | string {
  const diameter = words.take("D") ? words.number() : Number.NaN;
  if (!(diameter > 0)) return `CYLINDER needs D and a diameter over 0; expected ${exampleOf("CYLINDER")}`;
  const shape = words.next();
  if (shape !== "CONVEX" && shape !== "CONCAVE")
    return `CYLINDER needs CONVEX or CONCAVE; expected ${exampleOf("CYLINDER")}`;
  const offsetMm = readOffset(words, mmPerUnit);
  if (offsetMm === null) return `OFFSET needs a length; expected ${exampleOf("CYLINDER")}`;
  const diameterMm = diameter * mmPerUnit;
  return { kind: "cylinder", diameterMm, shape: shape === "CONVEX" ? "convex" : "concave", offsetMm };
}

/** Degrees between 0 and 90, null where there are none. DEG may be left out. */
function angle(words: Words): number | null {
  const value = words.number();
  words.take("DEG");
  return value > 0 && value < 90 ? value : null;
}

/** The side does not matter to a symmetric form: the sign is dropped. 0 where no OFFSET stands, null where it has no length. */
function readOffset(words: Words, mmPerUnit: number): number | null {
  if (!words.take("OFFSET")) return 0;
  const value = words.number();
  return Number.isFinite(value) ? Math.abs(value) * mmPerUnit : null;
}

function wrongAngle(kind: string): string {
  return `${kind} needs an angle over 0 and under 90 DEG; expected ${exampleOf(kind)}`;
}

function exampleOf(kind: string): string {
  switch (kind) {
    case "INCLINE":
      return "INCLINE 30 DEG";
    case "EDGE":
      return "EDGE AREA 30 PCT, EDGE AXIS OUT 4. or EDGE AXIS IN 3.5";
    case "RIDGE":
      return "RIDGE FLANK 30 DEG OFFSET 2.5";
    case "CYLINDER":
      return "CYLINDER D120 CONCAVE OFFSET 4. or CYLINDER D120 CONVEX";
    case "CHAIN":
    case "WEB":
      return `${kind} PITCH 12.5`;
    default:
      return kind;
  }
}

function readMaterial(words: readonly string[]): CutNote | { readonly problem: string } {
  const at = words.findIndex((word) => SCALES.has(word.toUpperCase()));
  if (words.length === 0) return { problem: "CUT MATERIAL needs a name; expected CUT MATERIAL 42CRMO4 HB 290" };
  if (at < 0) return { kind: "material", name: words.join(" "), hardness: null };
  const scale = SCALES.get((words[at] ?? "").toUpperCase()) ?? "";
  // `HB 290` or `290 HB`.
  const isNumber = (word: string | undefined) => word !== undefined && /^[0-9]+\.?[0-9]*$/.test(word);
  const behind = isNumber(words[at + 1]);
  const value = behind ? words[at + 1] : words[at - 1];
  const name = words.slice(0, behind ? at : at - 1).join(" ");
  const used = behind ? at + 2 : at + 1;
  if (!isNumber(value) || name === "" || used !== words.length) {
    return {
      problem: `CUT MATERIAL needs a name and, if any, a hardness with its scale; expected CUT MATERIAL 42CRMO4 HB 290`,
    };
  }
  return { kind: "material", name, hardness: `${value} ${scale}` };
}

function readAllow(text: string): CutNote | { readonly problem: string } {
  const [head = "", because] = splitAt(text, "BECAUSE");
  const [front = "", by] = splitAt(head, "BY");
  const [check = "", upTo] = splitAt(front, "UP TO");
  if (check === "" || /[ \t]/.test(check) || !upTo || !by || !because) {
    return {
      problem:
        "CUT ALLOW needs a check, a value, initials and a reason; expected CUT ALLOW check-id UP TO 12.5 BY AB BECAUSE reason",
    };
  }
  return { kind: "allow", check: check.toLowerCase(), upTo, by, because };
}

function splitAt(text: string, word: string): [string, string | undefined] {
  const match = new RegExp(`(?:^| )${word}(?: |$)`, "i").exec(text);
  if (match === null) return [text.trim(), undefined];
  return [text.slice(0, match.index).trim(), text.slice(match.index + match[0].length).trim()];
}

function offset(mm: number, length: (mm: number) => string): string {
  return mm === 0 ? "" : ` OFFSET ${length(mm)}`;
}

/** A length with a point, as a control wants it: `4.`, `3.5`. */
function written(value: number): string {
  const text = plain(value);
  return text.includes(".") ? text : `${text}.`;
}

function plain(value: number): string {
  return String(Number(value.toFixed(4)));
}

function shown(text: string): string {
  return text.length <= 24 ? text : `${text.slice(0, 23)}…`;
}
