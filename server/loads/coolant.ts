/** Coolant at first contact: kinds, pressure and flow of the codes in force, and the time since they were switched on. */
import type { Execution, HoleShape, Operation } from "../program/types.ts";
import type { CoolantSupply, ResolvedSetup } from "../setup/types.ts";
import { known, unknown } from "./known.ts";
import type { Known } from "./types.ts";

export interface CoolantState {
  readonly kinds: readonly string[];
  readonly pressure: Known<number>;
  readonly flow: Known<number>;
}

/** The machine's own codes go before the dialect's, whose pressure and flow nobody declared. */
export function supplyOf(code: string, setup: ResolvedSetup): CoolantSupply | null {
  const declared = setup.machine?.coolant.get(code);
  if (declared !== undefined) return declared;
  const kind = setup.dialect.coolantOn.get(code);
  return kind === undefined ? null : { kind, pressure: null, flow: null };
}

/** Where several supplies run, the one through the tool counts: it is what reaches the edges. */
export function coolantOf(shape: HoleShape, setup: ResolvedSetup): CoolantState {
  const supplies: { code: string; supply: CoolantSupply }[] = [];
  for (const code of shape.state.coolant) {
    const supply = supplyOf(code, setup);
    if (supply !== null) supplies.push({ code, supply });
  }
  const kinds = [...new Set(supplies.map((s) => s.supply.kind))];
  const first = supplies[0];
  if (first === undefined) {
    const off = unknown("no coolant is on at first contact");
    return { kinds, pressure: off, flow: off };
  }
  const counts = supplies.find((s) => s.supply.kind === "through") ?? first;
  const reading = (value: number | null, what: string): Known<number> =>
    value === null ? unknown(`the ${what} of ${counts.code} is not declared`) : known(value);
  return {
    kinds,
    pressure: reading(counts.supply.pressure, "pressure"),
    flow: reading(counts.supply.flow, "flow"),
  };
}

/** Whether coolant comes through the drill: the supply is through and the tool is not said to have no channels. */
export function throughTool(shape: HoleShape, setup: ResolvedSetup, toolCoolant: string | null): boolean {
  if (toolCoolant !== null && toolCoolant !== "through") return false;
  return shape.state.coolant.some((code) => supplyOf(code, setup)?.kind === "through");
}

/** Blocks; the trace of a longer program takes more time than its answer is worth. */
const MOST_TRACED = 20_000;

/**
 * Seconds between switching coolant on and the first feed of a shape's first hole, for all shapes in one run over the
 * trace. The state of a motion shows what is on while it runs, whether its code stood alone or beside other words.
 */
export class CoolantClock {
  readonly #execution: Execution;
  #leads: ReadonlyMap<number, Known<number>> | null = null;

  constructor(execution: Execution) {
    this.#execution = execution;
  }

  /** Seconds from coolant on to the start of the first feed move of the shape's first hole. */
  lead(shape: HoleShape): Known<number> {
    if (shape.state.coolant.length === 0) return unknown("no coolant is on at first contact");
    const operation = this.#execution.operations[shape.operation];
    if (operation?.coolantLead !== undefined) return this.#recorded(operation, operation.coolantLead, shape);
    if (this.#execution.blocks.count > MOST_TRACED) return unknown("the program is too long to time every move");
    this.#leads ??= readLeads(this.#execution);
    return this.#leads.get(shape.id) ?? unknown("the hole's first feed move is not in the trace");
  }

  /** The run timed the first hole of each operation; those after it have had their coolant for longer. */
  #recorded(operation: Operation, seconds: number | null, shape: HoleShape): Known<number> {
    const first = operation.holeCount > 0 ? this.#execution.hole(operation.firstHole).shape.id : -1;
    if (shape.id !== first) return unknown("only the first hole of an operation is timed");
    return seconds === null ? unknown(NO_TIME) : known(seconds);
  }
}

function readLeads(execution: Execution): ReadonlyMap<number, Known<number>> {
  const wanted = new Map<number, number[]>();
  for (const operation of execution.operations) {
    for (const { shape, firstHole } of operation.shapes) {
      const block = execution.hole(firstHole).block;
      const list = wanted.get(block);
      if (list === undefined) wanted.set(block, [shape]);
      else list.push(shape);
    }
  }
  const leads = new Map<number, Known<number>>();
  // NaN once a motion since the switch has no known time.
  let sinceOn: number | null = null;
  for (const motion of execution.motions()) {
    if (motion.state.coolant.length === 0) sinceOn = null;
    else sinceOn ??= 0;
    if (motion.kind === "feed" || motion.kind === "arc") {
      const shapes = wanted.get(motion.block);
      if (shapes !== undefined) {
        for (const shape of shapes) if (!leads.has(shape)) leads.set(shape, asLead(sinceOn));
        wanted.delete(motion.block);
        if (wanted.size === 0) break;
      }
    }
    if (sinceOn !== null && (motion.kind !== "coolant" || motion.seconds !== null)) sinceOn += motion.seconds ?? NaN;
  }
  return leads;
}

const NO_TIME =
  "a move since coolant came on has no known time: where it starts, its feed or the machine's rapid is not known";

function asLead(seconds: number | null): Known<number> {
  if (seconds === null) return unknown("coolant is switched on in the block of the first contact");
  if (Number.isNaN(seconds)) return unknown(NO_TIME);
  return known(seconds);
}
