/** Thrust along the drill axis. */
import { chiselIndentFactor, chiselThrustFactor, lipThrustFactor } from "../../mechanics/handbook.ts";
import { WEAR_THRUST } from "../../mechanics/peaks.ts";
import { INSERT_THRUST, LIP_THRUST } from "../../mechanics/thrust.ts";
import { scaled } from "../bands.ts";
import type { Facts } from "../facts.ts";
import { COMMON_PRACTICE } from "../provenance.ts";
import type { FullThrust, HandbookRule, InsertRule, LipRule } from "../thrust.ts";
import type { Derivation, DerivationInput } from "../types.ts";
import { coreInputs, derivation, diameterInput, feedInput, input, madeFrom, toolInput } from "./inputs.ts";
import { deriveForce, HANDBOOK, kdSource, lineSources } from "./torque.ts";

interface Form {
  readonly formula: string;
  readonly expression: string;
  readonly inputs: readonly DerivationInput[];
  readonly source: string;
  readonly notes: readonly string[];
  readonly steps: readonly Derivation[];
}

export function deriveThrust(facts: Facts): Derivation | null {
  if (!facts.thrust.known) return null;
  const full = facts.thrust.value;
  const form = formOf(facts, full);
  const partial = facts.edgeShare < 1;
  return derivation({
    formula: form.formula,
    title: "thrust along the drill axis",
    expression: partial ? `${form.expression} · ε` : form.expression,
    inputs: [
      diameterInput(facts, full.diameter),
      ...coreInputs(full.core),
      feedInput(facts, full.f),
      ...form.inputs,
      input("W", WEAR_THRUST.nominal, null, `${COMMON_PRACTICE}: wear between new and worn`),
      ...(partial
        ? [input("ε", facts.edgeShare, "share", "engagement: largest share of the edge in metal, mean over the turn")]
        : []),
    ],
    symbol: "T",
    value: full.band.nominal * facts.edgeShare,
    quantity: "force",
    band: scaled(full.band, facts.edgeShare),
    source: form.source,
    notes: [
      `wear ${WEAR_THRUST.low.toFixed(1)}/${WEAR_THRUST.nominal}/${WEAR_THRUST.high}, ${COMMON_PRACTICE}`,
      "thrust is known less well than torque: band at least − 50 to + 60 %",
      ...form.notes,
    ],
    steps: form.steps,
  });
}

function formOf(facts: Facts, full: FullThrust): Form {
  switch (full.how.method) {
    case "insert":
      return insertForm(full.how, full.core);
    case "lips":
      return lipForm(facts, full.how, full);
    case "handbook":
      return handbookForm(facts, full.how);
  }
}

function insertForm(how: InsertRule, core: number): Form {
  const width = core > 0 ? "(DC − d) / 2" : "DC / 2";
  return {
    formula: "two-insert-thrust",
    expression: `T = c · kc(0.1) · 0.1 · ${width} · (f / 0.1)^0.6 · W`,
    inputs: [
      input("c", INSERT_THRUST.nominal, null, `${COMMON_PRACTICE}: ${INSERT_THRUST.low} to ${INSERT_THRUST.high}`),
      input("kc(0.1)", how.kc.nominal, "stress", `at h = 0.1 mm, rake included; ${lineSources(how.forces)}`),
    ],
    source: `${COMMON_PRACTICE}, no source`,
    notes: ["a two-insert drill has no chisel edge"],
    steps: [],
  };
}

function lipForm(facts: Facts, how: LipRule, full: FullThrust): Form {
  const { chip } = how;
  const width = full.core > 0 ? "(DC − d) / 2" : "DC / 2";
  return {
    formula: "lip-thrust",
    expression: `T = c · ${width} · f · kc · sin κ · W`,
    inputs: [
      input("c", LIP_THRUST.nominal, null, `${COMMON_PRACTICE}: ${LIP_THRUST.low} to ${LIP_THRUST.high}`),
      input("kc", chip.kc.nominal, "stress", "below"),
      madeFrom(facts, "κ", chip.kappa, "angle"),
    ],
    source: `${COMMON_PRACTICE}, no source`,
    notes: ["lips alone: this drill has no chisel edge"],
    steps: [deriveForce(facts, chip, full.f)],
  };
}

function handbookForm(facts: Facts, how: HandbookRule): Form {
  const x = how.chisel.value;
  const chisel = `chisel c/d ${x} (${toolInput(facts, "c/d", how.chisel, null).from})`;
  const kd = input("Kd", how.factor.thrust, null, kdSource(facts, how.factor.hardnessHB, how.factor.byGroup));
  const notHss =
    facts.tool.known && (facts.tool.value.family === "solid-carbide" || facts.tool.value.family === "spade");
  const notes = [
    ...(notHss ? ["the handbook form was made for HSS twist drills; nothing better is published for this drill"] : []),
    ...(!how.factor.weak ? [] : ["hardness not known or outside the handbook's table: nearest value"]),
  ];
  const common = { source: `${HANDBOOK}; Kd ${how.factor.source}`, notes, steps: [] };
  if (how.withoutChisel) {
    return {
      ...common,
      formula: "handbook-thrust-core",
      expression: "T = 0.05 · Kd · f^0.8 · DC^0.8 · B · (DC − d) / DC · W",
      inputs: [kd, input("B", lipThrustFactor(x), null, `lips alone: the core has taken the chisel edge; ${chisel}`)],
    };
  }
  return {
    ...common,
    formula: "handbook-thrust",
    expression: "T = (0.05 · Kd · f^0.8 · DC^0.8 · B + 0.007 · Kd · DC² · J) · W",
    inputs: [kd, input("B", chiselThrustFactor(x), null, chisel), input("J", chiselIndentFactor(x), null, chisel)],
  };
}
