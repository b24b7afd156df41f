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

/**
 * Seconds from coolant on to the stroke with which the shape's first hole meets metal. The run times the first hole after
 * each time coolant came on; those after it have had their coolant for longer.
 */
export function coolantLead(execution: Execution, shape: HoleShape): Known<number> {
  if (shape.state.unsure.includes("coolant") && shape.state.unsureWhy !== null) return unknown(shape.state.unsureWhy);
  if (shape.state.coolant.length === 0) return unknown("no coolant is on at first contact");
  const operation = execution.operations[shape.operation];
  const lead = operation === undefined ? undefined : leadsOf(operation).get(shape.id);
  if (lead === undefined) return unknown("only the first hole after coolant came on is timed");
  return lead.seconds === null ? unknown(NO_TIME) : known(lead.seconds);
}

interface Lead {
  readonly seconds: number | null;
}

const LEADS = new WeakMap<Operation, ReadonlyMap<number, Lead>>();

/** Leads of an operation by the shape whose first hole they are of. */
function leadsOf(operation: Operation): ReadonlyMap<number, Lead> {
  const made = LEADS.get(operation);
  if (made !== undefined) return made;
  const leads = new Map<number, Lead>();
  const byFirst = new Map(operation.shapes.map(({ shape, firstHole }) => [firstHole, shape]));
  for (const lead of operation.coolantLeads) {
    const shape = byFirst.get(lead.hole);
    if (shape !== undefined && lead.stroke === Math.max(shape.firstCut, 0)) leads.set(shape.id, lead);
  }
  LEADS.set(operation, leads);
  return leads;
}

/** Seconds of feed from the beginning of a stroke to metal; 0 where they are not known. */
export function secondsToMetal(shape: HoleShape, index: number): number {
  const { strokes, firstCut, surfaceZ, kind } = shape;
  const stroke = strokes[index];
  if (stroke === undefined || stroke.f === null || stroke.n === null) return 0;
  const rate = stroke.f * stroke.n;
  let metal = surfaceZ;
  for (let i = Math.max(firstCut, 0); i < index; i++) metal = Math.min(metal, strokes[i]?.toZ ?? metal);
  const way = kind === "back-bore" ? metal - stroke.fromZ : stroke.fromZ - metal;
  return rate > 0 ? (Math.max(0, way) / rate) * 60 : 0;
}

const NO_TIME =
  "a move since coolant came on has no known time: where it starts, its feed or the machine's rapid is not known";
