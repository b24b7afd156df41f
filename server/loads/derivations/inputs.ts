/** Inputs of derivations with their provenance. */
import type { Quantity } from "../../units/quantities.ts";
import type { Facts } from "../facts.ts";
import { blockName, COMMON_PRACTICE, setupSource, toolSource, wordSource } from "../provenance.ts";
import type { Fact } from "../tool-facts.ts";
import type { Derivation, DerivationInput } from "../types.ts";

export function input(symbol: string, value: number, quantity: Quantity | null, from: string): DerivationInput {
  return { symbol, value, quantity, from };
}

/** An input that the tool declares, or that common practice fills in. */
export function toolInput(facts: Facts, symbol: string, fact: Fact, quantity: Quantity | null): DerivationInput {
  return input(symbol, fact.value, quantity, factSource(facts, fact));
}

export function factSource(facts: Facts, fact: Fact): string {
  if (fact.field === null || !facts.tool.known) return fact.from === "" ? COMMON_PRACTICE : fact.from;
  return toolField(facts, fact.field);
}

/** An input that is made from a field of another name: `half of SIG, swarfline.yaml line 12`. */
export function madeFrom(facts: Facts, symbol: string, fact: Fact, quantity: Quantity | null): DerivationInput {
  const from = factSource(facts, fact);
  if (fact.field === null || fact.field === symbol) return input(symbol, fact.value, quantity, from);
  return input(symbol, fact.value, quantity, `${fact.field === "SIG" ? "half of SIG" : fact.field}, ${from}`);
}

/** The diameter of the drill, or the part of it that the point has cut when the hole ends before the corner. */
export function diameterInput(facts: Facts, diameter: number): DerivationInput {
  const from = toolField(facts, "DC");
  const whole = !facts.tool.known || Math.abs(diameter - facts.tool.value.DC) < 1e-9;
  return input(
    "DC",
    diameter,
    "length",
    whole ? from : `the part of DC that the point has cut at this depth; DC from ${from}`,
  );
}

export function coreInputs(core: number): DerivationInput[] {
  return core > 0 ? [input("d", core, "length", "hole drilled before on this axis")] : [];
}

/** Where a field of the tool comes from. */
export function toolField(facts: Facts, field: string): string {
  if (!facts.tool.known) return "tool table";
  return toolSource(facts.setting.execution, facts.setting.setup, facts.tool.value, field);
}

export function rotationInput(facts: Facts, n: number): DerivationInput {
  return input("n", n, "rotation", speedSource(facts));
}

export function speedSource(facts: Facts): string {
  return wordSource(facts.setting.execution.blocks, facts.shape.state.from.s);
}

/** The word that set the feed of the first stroke in metal. */
export function feedSource(facts: Facts): string {
  const { blocks } = facts.setting.execution;
  const stroke = facts.shape.strokes[facts.shape.firstCut];
  const ref = stroke !== undefined && stroke.fRef !== 0 ? stroke.fRef : facts.shape.state.from.f;
  return wordSource(blocks, ref);
}

export function feedInput(facts: Facts, f: number): DerivationInput {
  const mode = facts.shape.state.feedMode;
  const from = feedSource(facts);
  return input("f", f, "feedPerRev", mode === 95 ? from : `${from}, over n`);
}

/** Where the hole's block stands, for values that the program's geometry gives. */
export function holeSource(facts: Facts): string {
  const { blocks } = facts.setting.execution;
  const { refs } = facts.shape;
  const ref = refs.z !== 0 ? refs.z : refs.cycle;
  const span = ref === 0 ? null : blocks.spanOf(ref);
  return span === null ? "the program" : blockName(blocks, span.block);
}

/** Where a value of the work material comes from. */
export function materialSource(facts: Facts, field: string, otherwise: string): string {
  const { material } = facts;
  if (material === null) return otherwise;
  return setupSource(facts.setting.setup, `${material.path}.${field}`, otherwise);
}

export interface Parts {
  readonly formula: string;
  readonly title: string;
  readonly expression: string;
  readonly inputs: readonly DerivationInput[];
  readonly symbol: string;
  readonly value: number;
  readonly quantity: Quantity | null;
  readonly source: string;
  readonly band?: Derivation["band"];
  readonly notes?: readonly string[];
  readonly steps?: readonly Derivation[];
}

export function derivation(parts: Parts): Derivation {
  const { formula, title, expression, inputs, symbol, value, quantity, source } = parts;
  return {
    formula,
    title,
    expression,
    inputs,
    result: { symbol, value, quantity },
    band: parts.band ?? null,
    source,
    notes: parts.notes ?? [],
    steps: parts.steps ?? [],
  };
}
