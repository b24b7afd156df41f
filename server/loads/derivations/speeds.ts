/** vc, n, f, vf, removal rate, point length. */
import { coreDiameter, engagedDiameter } from "../cut.ts";
import type { Facts } from "../facts.ts";
import { pointAngle, pointLength } from "../tool-facts.ts";
import type { Derivation } from "../types.ts";
import {
  coreInputs,
  derivation,
  diameterInput,
  factSource,
  feedInput,
  feedSource,
  input,
  rotationInput,
  speedSource,
  toolField,
  toolInput,
} from "./inputs.ts";

const KINEMATICS = "ISO 3002 definitions (from memory); Groover, Fundamentals of Modern Manufacturing, ch. 22";

export function deriveSpeed(facts: Facts): Derivation | null {
  const { n, vc } = facts.speeds;
  if (!n.known || !vc.known || !facts.tool.known) return null;
  return derivation({
    formula: "cutting-speed",
    title: "cutting speed at the corner",
    expression: "vc = π · DC · n / 1000",
    inputs: [input("DC", facts.tool.value.DC, "length", toolField(facts, "DC")), rotationInput(facts, n.value)],
    symbol: "vc",
    value: vc.value,
    quantity: "speed",
    source: KINEMATICS,
  });
}

export function deriveRotation(facts: Facts): Derivation | null {
  const { n } = facts.speeds;
  if (!n.known) return null;
  return derivation({
    formula: "spindle-speed",
    title: "spindle speed",
    expression: "n = S",
    inputs: [input("S", n.value, "rotation", speedSource(facts))],
    symbol: "n",
    value: n.value,
    quantity: "rotation",
    source: "the program",
  });
}

export function deriveFeed(facts: Facts): Derivation | null {
  const { f, n } = facts.speeds;
  if (!f.known) return null;
  const common = { title: "feed per revolution", symbol: "f", value: f.value, quantity: "feedPerRev" } as const;
  const mode = facts.shape.state.feedMode;
  if (mode === 95 || !n.known || !(n.value > 0)) {
    return derivation({
      ...common,
      formula: "feed-per-revolution",
      expression: "f = F",
      inputs: [input("F", f.value, "feedPerRev", feedSource(facts))],
      source: "the program",
    });
  }
  const source = feedSource(facts);
  return derivation({
    ...common,
    formula: mode === 93 ? "feed-inverse-time" : "feed-from-rate",
    expression: "f = F / n",
    inputs: [
      input(
        "F",
        f.value * n.value,
        "feedRate",
        mode === 93 ? `the length of the move over the time of ${source}` : source,
      ),
      rotationInput(facts, n.value),
    ],
    source: KINEMATICS,
  });
}

export function deriveFeedRate(facts: Facts): Derivation | null {
  const { f, n, vf } = facts.speeds;
  if (!f.known || !n.known || !vf.known) return null;
  return derivation({
    formula: "feed-rate",
    title: "feed rate",
    expression: "vf = f · n",
    inputs: [feedInput(facts, f.value), rotationInput(facts, n.value)],
    symbol: "vf",
    value: vf.value,
    quantity: "feedRate",
    source: KINEMATICS,
  });
}

export function deriveRemoval(facts: Facts): Derivation | null {
  const { f, n, mrr } = facts.speeds;
  if (!f.known || !n.known || !mrr.known || !facts.tool.known) return null;
  const outer = engagedDiameter(facts.shape, facts.tool.value);
  const core = Math.min(outer, coreDiameter(facts.shape, facts.tool.value));
  return derivation({
    formula: core > 0 ? "removal-rate-core" : "removal-rate",
    title: "removal rate",
    expression: core > 0 ? "Q = π · (DC² − d²) · f · n / 4000" : "Q = π · DC² · f · n / 4000",
    inputs: [
      diameterInput(facts, outer),
      ...coreInputs(core),
      feedInput(facts, f.value),
      rotationInput(facts, n.value),
    ],
    symbol: "Q",
    value: mrr.value,
    quantity: "removal",
    source: KINEMATICS,
  });
}

export function derivePointLength(facts: Facts): Derivation | null {
  if (!facts.tool.known) return null;
  const tool = facts.tool.value;
  const length = pointLength(tool);
  if (!length.known || !Number.isFinite(length.value.value)) return null;
  const common = {
    title: "point length, tip to corner",
    symbol: "PL",
    value: length.value.value,
    quantity: "length",
  } as const;
  const angle = pointAngle(tool);
  const fromAngle = length.value.field === "SIG" || (length.value.field === null && tool.family !== "indexable");
  if (fromAngle && angle.known) {
    const flat = tool.family === "indexable" && angle.value.value === 180;
    return derivation({
      ...common,
      formula: "point-length",
      expression: "PL = (DC / 2) / tan(SIG / 2)",
      inputs: [input("DC", tool.DC, "length", toolField(facts, "DC")), toolInput(facts, "SIG", angle.value, "angle")],
      source: "geometry of the cone",
      notes: flat ? ["the front of a two-insert drill is nearly but not exactly flat: declare PL"] : [],
    });
  }
  return derivation({
    ...common,
    formula: "point-length-given",
    expression: "PL = PL of the tool",
    inputs: [input("PL", length.value.value, "length", factSource(facts, length.value))],
    source: length.value.field === null ? length.value.from : "tool data",
  });
}
