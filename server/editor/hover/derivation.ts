/**
 * The arithmetic of a load, printed from its data: formula with symbols, with the numbers put in, the result in both unit
 * systems, band, provenance and source. The one printer of derivations for the editor; nothing is worked out again here.
 */
import { baseUnit, say, sayOne } from "../../units/wording.ts";
import type { Band, Derivation, Quantity, UnitSystem as System } from "../model.ts";
import { code, paragraphs, soft, table } from "./markdown.ts";

type Input = Derivation["inputs"][number];

/** Deeper steps than this are in `explain`; a hover is read in passing. */
const MAX_DEPTH = 3;

export function printDerivation(derivation: Derivation, system: System): string {
  const computed = new Map<string, Derivation>();
  const steps: Derivation[] = [];
  collectSteps(derivation, 0, steps);
  for (const step of steps) computed.set(step.result.symbol, step);
  return paragraphs(
    headLine(derivation, system),
    inputTable([derivation, ...steps], computed, system),
    ...steps.map((step) => stepLine(step, system)),
    notesOf([derivation, ...steps]),
    sourcesOf([derivation, ...steps]),
  );
}

/** Only formula, numbers and result: `M = … = 62.1 N·m (45.8 ft·lb)`. */
export function printShort(derivation: Derivation, system: System): string {
  return stepLine(derivation, system);
}

function headLine(d: Derivation, system: System): string {
  return `**${soft(capital(d.title))}**: ${code(d.expression)}  \n${code(numbersIn(d))} = **${soft(resultOf(d, system))}**${bandOf(d, system)}`;
}

function stepLine(d: Derivation, system: System): string {
  return `${soft(capital(d.title))}: ${code(d.expression)} ${code(numbersIn(d))} = **${soft(resultOf(d, system))}**${bandOf(d, system)}`;
}

function resultOf(d: Derivation, system: System): string {
  return d.result.quantity === null ? figures(d.result.value) : say(d.result.value, d.result.quantity, system);
}

function bandOf(d: Derivation, system: System): string {
  if (d.band === null || d.result.quantity === null || d.band.low === d.band.high) return "";
  return `, band ${soft(bandText(d.band, d.result.quantity, system))}`;
}

/** `4.4 to 6.7 kW (5.9 to 9.0 hp)` */
export function bandText(band: Band, quantity: Quantity, system: System): string {
  const one = (s: System): string => {
    const low = sayOne(band.low, quantity, s).replace(/[ °%].*$/, "");
    return `${low} to ${sayOne(band.high, quantity, s)}`;
  };
  const other: System = system === "mm" ? "inch" : "mm";
  const own = one(system);
  const foreign = one(other);
  return own === foreign ? own : `${own} (${foreign})`;
}

/**
 * The right side of the expression with the inputs' values in the place of their symbols, in base units, as the formula's
 * own constants ask for. A symbol is replaced only where it stands alone: the `n` of `n·π` but not the `n` of `sin`.
 */
export function numbersIn(d: Derivation): string {
  const right = d.expression.replace(/^[^=]*=\s*/, "");
  const values = new Map<string, string>();
  for (const input of d.inputs) values.set(input.symbol, figures(input.value));
  const symbols = [...values.keys()].filter((s) => s !== "").sort((a, b) => b.length - a.length);
  if (symbols.length === 0) return `= ${right}`;
  const any = symbols.map((s) => s.replace(/[.*+?^${}()|[\]\\]/g, "\\$&")).join("|");
  const alone = new RegExp(`(?<![\\p{L}\\p{N}_.])(?:${any})(?![\\p{L}_]|[₀-₉]|\\.?[0-9])`, "gu");
  return `= ${right.replace(alone, (symbol, offset: number) => {
    const value = values.get(symbol) ?? symbol;
    const before = right.slice(0, offset).trimEnd().at(-1) ?? "";
    return value.startsWith("-") && /[-+·*/^]/.test(before) ? `(${value})` : value;
  })}`;
}

/** Four significant figures, never an exponent where a person can read the digits. */
export function figures(value: number): string {
  if (!Number.isFinite(value)) return "unknown";
  const size = Math.abs(value);
  if (size >= 10_000) return Math.round(value).toString();
  return Number(value.toPrecision(4)).toString();
}

function inputTable(all: readonly Derivation[], computed: ReadonlyMap<string, Derivation>, system: System): string {
  const rows: string[][] = [];
  const seen = new Set<string>();
  for (const d of all) {
    for (const input of d.inputs) {
      if (computed.has(input.symbol)) continue;
      const key = `${input.symbol} ${input.value} ${input.from}`;
      if (seen.has(key)) continue;
      seen.add(key);
      rows.push([soft(input.symbol), soft(inputValue(input, system)), soft(input.from)]);
    }
  }
  return table(["given", "value", "from"], rows);
}

function inputValue(input: Input, system: System): string {
  if (input.quantity === null) return figures(input.value);
  // The formula counts in base units: where rounding for a person hides digits that the formula uses, they show there.
  const shown = say(input.value, input.quantity, system);
  return shown === "" ? `${figures(input.value)} ${baseUnit(input.quantity)}` : shown;
}

function collectSteps(d: Derivation, depth: number, into: Derivation[]): void {
  if (depth >= MAX_DEPTH) return;
  for (const step of d.steps) {
    if (!into.some((known) => known.formula === step.formula && known.result.value === step.result.value))
      into.push(step);
    collectSteps(step, depth + 1, into);
  }
}

function notesOf(all: readonly Derivation[]): string {
  const notes = [...new Set(all.flatMap((d) => d.notes))];
  return notes.map((note) => `- ${soft(note)}`).join("\n");
}

function sourcesOf(all: readonly Derivation[]): string {
  const sources = [...new Set(all.map((d) => d.source).filter((s) => s !== ""))];
  return sources.length === 0 ? "" : `Source: ${soft(sources.join("; "))}`;
}

function capital(title: string): string {
  return title.charAt(0).toUpperCase() + title.slice(1);
}
