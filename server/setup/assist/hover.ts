/** Hovers in setup files: what a key means, and what a value comes to in both unit systems. */
import { readEntry } from "../../../grammar/cut-notes.ts";
import { parseQuantity, type UnitSystem } from "../../units/quantities.ts";
import { say, unitIn } from "../../units/wording.ts";
import { readyDialects } from "../dialects/index.ts";
import { parseHardness, sayHardness } from "../hardness.ts";
import { findMaterial } from "../materials/find.ts";
import { expected } from "../read/expected.ts";
import { flatten, schemasAt } from "../schema/at.ts";
import { SETUP } from "../schema/index.ts";
import type { Schema } from "../schema/node.ts";
import type { WorkMaterial } from "../types.ts";
import { unitsOf } from "./complete.ts";
import { scan } from "./scan.ts";
import { documentation } from "./values.ts";

export interface SetupHover {
  readonly markdown: string;
  /** From 0. */
  readonly range: { readonly line: number; readonly start: number; readonly end: number };
}

/** Null: nothing to say there. */
export function hoverSetup(text: string, line: number, column: number): SetupHover | null {
  const { tokens } = scan(text, null);
  const token = tokens.find((t) => t.line === line && column >= t.start && column <= t.end);
  if (token === undefined) return null;
  const schemas = flatten(schemasAt(SETUP, token.path));
  const range = { line, start: token.start, end: token.end };
  if (schemas.length === 0) return null;
  const units = unitsOf(tokens);
  const name = token.path.filter((part) => part !== "[]").join(".");
  if (token.kind === "key") {
    const first = schemas[0];
    if (first === undefined) return null;
    return {
      markdown: [`**${name}**: ${schemas.map(expected).join(", or ")}`, documentation(first), unitLine(first, units)]
        .filter((part) => part !== "")
        .join("\n\n"),
      range,
    };
  }
  for (const schema of schemas) {
    const said = value(schema, token.text, units);
    if (said !== null) return { markdown: `**${name}**: ${said}`, range };
  }
  return null;
}

function unitLine(schema: Schema, units: UnitSystem): string {
  if (schema.kind === "quantity" && schema.quantity !== "share")
    return `Bare numbers are ${unitIn(schema.quantity, units)} in this file; a written unit wins.`;
  if (schema.kind === "list" && schema.of.kind === "quantity") return unitLine(schema.of, units);
  if (schema.kind === "choice")
    return Object.entries(schema.values)
      .map(([key, doc]) => `* \`${key}\`: ${doc}`)
      .join("\n");
  return "";
}

function value(schema: Schema, text: string, units: UnitSystem): string | null {
  switch (schema.kind) {
    case "quantity": {
      const number = Number(text);
      const parsed = parseQuantity(text.trim() === "" || Number.isNaN(number) ? text : number, schema.quantity, units);
      return typeof parsed === "string"
        ? parsed
        : `${say(parsed.value, schema.quantity, units)}\n\n${schema.description}`;
    }
    case "hardness": {
      const parsed = parseHardness(text);
      if (typeof parsed === "string") return parsed;
      return [
        sayHardness(parsed.hb),
        parsed.note === "" ? "" : `Brinell ${parsed.note}.`,
        "Converted values hold strictly only for the material tested (ISO 18265).",
      ]
        .filter((part) => part !== "")
        .join("\n\n");
    }
    case "choice":
      return Object.hasOwn(schema.values, text) ? `${text}\n\n${schema.values[text]}` : null;
    case "text":
      return words(schema, text, units);
    case "list":
      return schema.single ? value(schema.of, text, units) : null;
    default:
      return null;
  }
}

function words(schema: Schema & { kind: "text" }, text: string, units: UnitSystem): string | null {
  if (schema.role === "material") {
    const found = findMaterial(text);
    return found === null ? null : sayMaterial(found);
  }
  if (schema.role === "dialect")
    return readyDialects.has(text) ? `${text}, a ready dialect\n\n${schema.description}` : null;
  if (schema.role === "entry") {
    const form = readEntry(text, units === "mm" ? 1 : 25.4);
    return typeof form === "string" ? form : `${text}\n\n${schema.description}`;
  }
  return schema.description === "" ? null : `${text}\n\n${schema.description}`;
}

/** What the table knows of a material, with the source of every pair. */
export function sayMaterial(material: WorkMaterial): string {
  const lines = [
    `${material.key}, group ${material.group}`,
    [...material.designations].join(" · "),
    material.condition,
  ];
  if (material.hardnessHB !== null) lines.push(sayHardness(material.hardnessHB));
  for (const pair of material.kienzle)
    lines.push(`kc1.1 ${say(pair.kc11, "stress", "mm")}, mc ${pair.mc} (${pair.source})`);
  if (material.kienzle.length === 0)
    lines.push("no cutting force known: torque and power by this model cannot be checked");
  return lines.filter((line) => line !== "").join("\n\n");
}
