/** Torque: Kienzle or handbook stack, or a reading of the load meter. */
import { processFactor, THIN_CHIP_MM } from "../../mechanics/kienzle.ts";
import { WEAR_TORQUE } from "../../mechanics/peaks.ts";
import { say } from "../../units/wording.ts";
import { scaled } from "../bands.ts";
import type { Facts } from "../facts.ts";
import type { ForceLines } from "../material.ts";
import type { Reading } from "../observed.ts";
import { COMMON_PRACTICE, setupSource } from "../provenance.ts";
import type { FullTorque, HandbookTorque, KienzleTorque } from "../torque.ts";
import type { Derivation, DerivationInput } from "../types.ts";
import {
  coreInputs,
  derivation,
  diameterInput,
  feedInput,
  input,
  madeFrom,
  materialSource,
  rotationInput,
  toolInput,
} from "./inputs.ts";

export const DRILL_FORM = "drilling form read, secondary, in a file that quotes Tabellenbuch Metall";
export const HANDBOOK = "Machinery's Handbook, 31st ed., p. 1152 (read)";

export function deriveTorque(facts: Facts): Derivation | null {
  if (!facts.torque.known) return facts.reading === null ? null : deriveReading(facts, facts.reading, []);
  const tables = deriveTables(facts, facts.torque.value);
  return facts.reading === null ? tables : deriveReading(facts, facts.reading, [tables]);
}

function deriveTables(facts: Facts, full: FullTorque): Derivation {
  const { how, core } = full;
  const kienzle = how.method === "kienzle";
  const expression = kienzle
    ? core > 0
      ? "M = (DC² − d²) · f · kc / 8000 · W"
      : "M = DC² · f · kc / 8000 · W"
    : core > 0
      ? "M = Kd · f^0.8 · DC^1.8 · A · (1 − (d / DC)²) / 40000 · W"
      : "M = Kd · f^0.8 · DC^1.8 · A / 40000 · W";
  const partial = facts.meanShare < 1;
  return derivation({
    formula: kienzle ? "kienzle-torque" : "handbook-torque",
    title: "torque at the drill, mean over the turn",
    expression: partial ? `${expression} · α` : expression,
    inputs: [
      diameterInput(facts, full.diameter),
      ...coreInputs(core),
      feedInput(facts, full.f),
      ...(how.method === "kienzle" ? [input("kc", how.kc.nominal, "stress", "below")] : handbookInputs(facts, how)),
      input("W", WEAR_TORQUE.nominal, null, `${COMMON_PRACTICE}: wear between new and worn`),
      ...(partial ? [input("α", facts.meanShare, "share", "engagement: largest share of the area in metal")] : []),
    ],
    symbol: "M",
    value: full.band.nominal * facts.meanShare,
    quantity: "torque",
    band: scaled(full.band, facts.meanShare),
    source: kienzle ? `${lineSources(how.forces)}; ${DRILL_FORM}` : `${HANDBOOK}; Kd ${how.factor.source}`,
    notes: torqueNotes(facts, full),
    steps: how.method === "kienzle" ? [deriveForce(facts, how, full.f)] : [],
  });
}

function torqueNotes(facts: Facts, full: FullTorque): string[] {
  const notes = [
    `wear ${WEAR_TORQUE.low.toFixed(1)}/${WEAR_TORQUE.nominal}/${WEAR_TORQUE.high}, ${COMMON_PRACTICE}`,
    full.weak
      ? "the material value is an estimate for its group or outside the table: band at least ± 50 %"
      : "published methods differ: band at least ± 35 %",
  ];
  if (facts.tool.known && facts.tool.value.familyAssumed)
    notes.push("drill family not declared: taken as HSS twist drill");
  if (full.packing > 1)
    notes.push(`chips pack in the flutes: high end × ${full.packing.toFixed(2)}, ${COMMON_PRACTICE}`);
  if (full.how.method === "kienzle") {
    const { setup } = facts.setting;
    const measured = setup.workpiece?.hardnessHB ?? null;
    if (measured !== null && facts.material !== null && facts.material.condition !== "") {
      notes.push(
        `kc1.1 stands for ${facts.material.key} as published (${facts.material.condition}): hardness does not change it`,
      );
    }
    if (full.how.belowRange) notes.push(belowRange(facts));
  }
  return [...notes, ...facts.refused];
}

function belowRange(facts: Facts): string {
  const limit = say(THIN_CHIP_MM, "length", facts.setting.execution.units ?? "mm");
  return `below the model's range: the chip is thinner than ${limit}, kc is held and the high end gets an edge term`;
}

/** Chip thickness and specific force, with the material's lines. */
export function deriveForce(facts: Facts, how: KienzleTorque, f: number): Derivation {
  const chip = derivation({
    formula: "chip-thickness",
    title: "uncut chip thickness",
    expression: "h = f / ZEFP · sin κ",
    inputs: [feedInput(facts, f), madeFrom(facts, "ZEFP", how.edges, null), madeFrom(facts, "κ", how.kappa, "angle")],
    symbol: "h",
    value: how.h,
    quantity: "length",
    source: "ISO 3002-3 (from memory)",
  });
  const { lines } = how.forces;
  const several = lines.length > 1;
  const inputs: DerivationInput[] = lines.flatMap((line, i) => {
    const mark = several ? String(i + 1) : "";
    const from = materialSource(facts, "kc11", line.source);
    return [
      input(`kc1.1${mark}`, line.kc11, "stress", from),
      input(`mc${mark}`, line.mc, null, from),
      input(`K${mark}`, processFactor(line.line), null, `process factor, line ${line.line}, ${COMMON_PRACTICE}`),
    ];
  });
  inputs.push(
    input(
      "h",
      Math.max(how.h, THIN_CHIP_MM),
      "length",
      how.belowRange ? "held at the end of the model's range" : "below",
    ),
  );
  if (how.rake !== null) {
    inputs.push(
      input(
        "Kγ",
        how.rakeFactor,
        null,
        `rake ${how.rake.value}° (${rakeSource(facts, how)}): 1.5 % per degree, from memory of Tschätsch`,
      ),
    );
  }
  const law = several ? "geometric mean of kc1.1 · h^−mc · K of each line" : "kc1.1 · h^−mc · K";
  return derivation({
    formula: "kienzle-force",
    title: "specific cutting force",
    expression: `kc = ${law}${how.rake === null ? "" : " · Kγ"}`,
    inputs,
    symbol: "kc",
    value: how.kc.nominal,
    quantity: "stress",
    band: how.kc,
    source: lineSources(how.forces),
    notes: how.belowRange ? [belowRange(facts)] : [],
    steps: [chip],
  });
}

function rakeSource(facts: Facts, how: KienzleTorque): string {
  return how.rake === null ? "" : toolInput(facts, "γ", how.rake, "angle").from;
}

export function lineSources(forces: ForceLines): string {
  return [...new Set(forces.lines.map((line) => line.source))].join("; ");
}

function handbookInputs(facts: Facts, how: HandbookTorque): DerivationInput[] {
  const x = how.chisel.value;
  return [
    input("Kd", how.factor.torque, null, kdSource(facts, how.factor.hardnessHB, how.factor.byGroup)),
    input(
      "A",
      (1 - x * x) / (1 + x) ** 0.2 + 3.2 * x ** 1.8,
      null,
      `chisel c/d ${x} (${toolInput(facts, "c/d", how.chisel, null).from})`,
    ),
  ];
}

export function kdSource(facts: Facts, hardnessHB: number | null, byGroup: boolean): string {
  const { material } = facts;
  if (material === null) return COMMON_PRACTICE;
  const hardness = hardnessHB === null ? "hardness not declared" : `${Number(hardnessHB.toFixed(0))} HB`;
  return `${material.key}, ${hardness}${byGroup ? `, by group ${material.group} (${COMMON_PRACTICE})` : ""}`;
}

/** A reading goes before the tables, whose derivation stays beside it for comparison. */
function deriveReading(facts: Facts, reading: Reading, tables: readonly Derivation[]): Derivation | null {
  const { n } = facts.speeds;
  if (!n.known) return null;
  const { setup } = facts.setting;
  const { observed } = reading;
  const from = setupSource(setup, observed.path, "load-meter reading of the tool");
  const machine = setup.machine?.path ?? "";
  return derivation({
    formula: "meter-torque",
    title: "torque at the drill, from a reading of the load meter",
    expression: "M = (load − idle) · P · η · 9549.3 / n · W",
    inputs: [
      input("load", observed.load / 100, "share", from),
      input("idle", observed.idle / 100, "share", from),
      input("P", reading.rating, "power", `${observed.meter} rating of the motor at this speed`),
      input("η", reading.efficiency, "share", setupSource(setup, `${machine}.spindle.efficiency`, COMMON_PRACTICE)),
      rotationInput(facts, n.value),
      input(
        "W",
        reading.wearFactor,
        null,
        `edge ${observed.wear} at the reading, brought to nominal wear (${COMMON_PRACTICE})`,
      ),
    ],
    symbol: "M",
    value: reading.torque.nominal,
    quantity: "torque",
    band: reading.torque,
    source: `load-meter reading (${from})`,
    notes: [
      "the reading narrows the band to ± 15 %",
      "it stands for S and F as they were when it was read",
      ...facts.refused,
    ],
    steps: tables,
  });
}
