/** What a schema expects, in words: `a rotational speed in 1/min`, `one of mill, turn`. */
import { describeQuantity, type Quantity, type UnitSystem } from "../../units/quantities.ts";
import { sayOne } from "../../units/wording.ts";
import type { Range, Schema } from "../schema/node.ts";

export function expected(schema: Schema): string {
  switch (schema.kind) {
    case "quantity":
      return schema.quantity === "share" ? "a share from 0 to 1 or in %" : describeQuantity(schema.quantity);
    case "number":
      return schema.whole ? "a whole number" : "a number";
    case "text":
      return TEXTS[schema.role];
    case "flag":
      return "true or false";
    case "hardness":
      return "a hardness with its scale";
    case "choice":
      return Object.keys(schema.values).length === 1
        ? (Object.keys(schema.values)[0] ?? "")
        : `one of ${Object.keys(schema.values).join(", ")}`;
    case "list":
      return schema.names === null
        ? `a list (${schema.single ? "or one value" : "[ ] or lines with -"})`
        : `[${schema.names.join(", ")}]`;
    case "record":
      return `${schema.title}: a map with ${sample(Object.keys(schema.keys))}`;
    case "map":
      return `a map from ${schema.keyTitle} to its value`;
    case "either":
      return schema.options.map(expected).join(", or ");
  }
}

const TEXTS = {
  plain: "a text",
  glob: "a file pattern",
  "machine-name": "a machine's name",
  "tools-name": "a tool table's name or file",
  "workpiece-name": "a workpiece's name",
  material: "a material",
  dialect: "a dialect's name",
  entry: "an entry in the words of a cut note",
  check: "a check's id",
  wcs: "a work coordinate system such as G54",
  "m-code": "an M code such as M8",
  "g-code": "a G code such as G83",
} as const;

const sample = (keys: readonly string[]): string =>
  keys.length <= 4 ? keys.join(", ") : `${keys.slice(0, 4).join(", ")} ...`;

/** Why a number is outside its range, or null. */
export function outside(value: number, range: Range, quantity: Quantity | null, system: UnitSystem): string | null {
  const { min, max } = range;
  const low = min !== undefined && (value < min || (range.over === true && value === min));
  const high = max !== undefined && (value > max || (range.under === true && value === max));
  if (!low && !high) return null;
  const parts: string[] = [];
  if (min !== undefined) parts.push(`${range.over === true ? "over" : "from"} ${show(min, quantity, system)}`);
  if (max !== undefined) parts.push(`${range.under === true ? "below" : "up to"} ${show(max, quantity, system)}`);
  return parts.join(" ");
}

function show(value: number, quantity: Quantity | null, system: UnitSystem): string {
  return value === 0 || quantity === null || quantity === "share" ? String(value) : sayOne(value, quantity, system);
}
