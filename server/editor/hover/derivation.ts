/**
 * The arithmetic of a load, printed from its data: formula with symbols, with the numbers put in, the result in both unit
 * systems, band, provenance and source. The one printer of derivations for the editor; nothing is worked out again here.
 */
import { say, sayOne } from "../../units/wording.ts";
import type { Band, Derivation, Quantity, UnitSystem as System } from "../model.ts";
import { code, paragraphs, soft, table, tight } from "./markdown.ts";

type Input = Derivation["inputs"][number];

/** Deeper steps than this are in `explain`; a hover is read in passing. */
const MAX_DEPTH = 3;

/**
 * Several derivations as one piece: what is given stands once below them, and so do notes and sources.
 * @param tops null where one could not be made: it is left out
 */
export function printDerivations(tops: readonly (Derivation | null)[], system: System): string {
  const made = tops.filter((d): d is Derivation => d !== null);
  const shown: Derivation[] = [];
  const lines = made.map((top) => {
    const steps: Derivation[] = [];
    collectSteps(top, 0, steps);
    // A step that an earlier derivation has shown is not shown again.
    const fresh = steps.filter((step) => !shown.some((known) => same(known, step)));
    const own = shown.some((known) => same(known, top)) ? [] : [headLine(top, system)];
    shown.push(top, ...fresh);
    return [...own, fresh.map((step) => `- ${stepLine(step, system)}`).join("\n")].filter((p) => p !== "").join("\n\n");
  });
  return paragraphs(...lines, inputTable(shown, system), notesOf(shown), sourcesOf(shown));
}

/** What a title says of a result: `**160 m/min (524 ft/min)** = π · 42 · 1210 / 1000`; empty where there is none. */
export function inTitle(d: Derivation | null, system: System): string {
  return d === null ? "" : `**${soft(resultOf(d, system))}** ${code(numbersIn(d))}`;
}

function headLine(d: Derivation, system: System): string {
  const result = `**${soft(resultOf(d, system))}**${bandOf(d, system)}`;
  return `**${soft(capital(d.title))}**: ${code(d.expression)}  \n${code(numbersIn(d))} = ${result}`;
}

function stepLine(d: Derivation, system: System): string {
  const result = `**${soft(resultOf(d, system))}**${bandOf(d, system)}`;
  return `${soft(capital(d.title))}: ${code(d.expression)} ${code(numbersIn(d))} = ${result}`;
}

function same(a: Derivation, b: Derivation): boolean {
  return a.formula === b.formula && a.result.value === b.result.value && a.result.symbol === b.result.symbol;
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

function inputTable(all: readonly Derivation[], system: System): string {
  const rows = new Map<string, string[]>();
  for (const d of all) {
    for (const input of d.inputs) {
      // What is worked out above stands there, with its own provenance.
      if (all.some((other) => other !== d && other.result.symbol === input.symbol && near(other, input))) continue;
      const row = [soft(input.symbol), tight(inputValue(input, system)), soft(input.from)];
      const key = `${row[0]} ${row[1]}`;
      if (!rows.has(key)) rows.set(key, row);
    }
  }
  return table(["given", "value", "from"], [...rows.values()], "lll");
}

function near(other: Derivation, input: Input): boolean {
  return Math.abs(other.result.value - input.value) <= 1e-9 * Math.abs(input.value);
}

function inputValue(input: Input, system: System): string {
  return input.quantity === null ? figures(input.value) : say(input.value, input.quantity, system);
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
  return notes.length === 0 ? "" : `Notes: ${notes.map(soft).join("; ")}.`;
}

function sourcesOf(all: readonly Derivation[]): string {
  const sources = [...new Set(all.flatMap((d) => d.source.split("; ")).filter((s) => s !== ""))];
  return sources.length === 0 ? "" : `Source: ${soft(sources.join("; "))}`;
}

function capital(title: string): string {
  return title.charAt(0).toUpperCase() + title.slice(1);
}
