/** The setup's schema as JSON Schema (draft 7), for other editors and tools. Made from the same descriptions. */
import { UNITS } from "../units/quantities.ts";
import { SETUP } from "./schema/index.ts";
import type { Schema } from "./schema/node.ts";

export type Json = null | boolean | number | string | readonly Json[] | { readonly [key: string]: Json };

export function setupJsonSchema(): { readonly [key: string]: Json } {
  return {
    $schema: "http://json-schema.org/draft-07/schema#",
    $id: "swarfline.schema.json",
    title: "swarfline.yaml",
    ...convert(SETUP),
  };
}

function convert(schema: Schema): { readonly [key: string]: Json } {
  return { ...doc(schema), ...shape(schema) };
}

function doc(schema: Schema): { readonly [key: string]: Json } {
  const fallback = schema.fallback === undefined ? "" : ` Left out: ${schema.fallback}.`;
  const description = `${schema.description}${fallback}`;
  return {
    ...(description === "" ? {} : { description }),
    ...(schema.examples === undefined ? {} : { examples: schema.examples.map(exampleValue) }),
  };
}

/** Examples stand as a person writes them; plain numbers are numbers here. */
function exampleValue(text: string): Json {
  const bare = text.replace(/^"(.*)"$/, "$1");
  return text === bare && /^-?\d+(\.\d+)?$/.test(text) ? Number(text) : bare;
}

function shape(schema: Schema): { readonly [key: string]: Json } {
  switch (schema.kind) {
    case "quantity": {
      // Limits are in base units and a bare number is in the file's own, so only the sign can be told here.
      const sign = schema.min === 0 ? (schema.over === true ? { exclusiveMinimum: 0 } : { minimum: 0 }) : {};
      const units = UNITS[schema.quantity]
        .flatMap((unit) => unit.names)
        .map((name) => name.replace(/[.*+?^${}()|[\]\\/]/g, "\\$&"));
      const pattern = `^\\s*[+-]?(\\d+\\.?\\d*|\\.\\d+)([eE][+-]?\\d+)?\\s*(${units.map(anyCase).join("|")})?\\s*$`;
      return {
        anyOf: [
          { type: "number", ...sign },
          { type: "string", pattern },
        ],
      };
    }
    case "number":
      return { type: schema.whole ? "integer" : "number", ...limits(schema) };
    case "text":
      // A name or designation may look like a number: 1.7225, 4140.
      return { type: ["string", "number"] };
    case "flag":
      return { type: "boolean" };
    case "hardness":
      return {
        type: "string",
        pattern: "^\\s*(\\d+(\\.\\d+)?\\s*[A-Za-z][A-Za-z0-9/²]*|[A-Za-z][A-Za-z0-9/²]*\\s*\\d+(\\.\\d+)?)\\s*$",
      };
    case "choice":
      return { enum: Object.keys(schema.values) };
    case "list": {
      const items = convert(schema.of);
      const list: { readonly [key: string]: Json } =
        schema.names === null
          ? { type: "array", items }
          : { type: "array", items, minItems: schema.names.length, maxItems: schema.names.length };
      return schema.single ? { anyOf: [items, list] } : list;
    }
    case "record": {
      const properties: Record<string, Json> = {};
      for (const [key, value] of Object.entries(schema.keys)) properties[key] = convert(value);
      return {
        type: "object",
        properties,
        additionalProperties: false,
        ...(schema.required.length === 0 ? {} : { required: schema.required }),
      };
    }
    case "map": {
      const of = convert(schema.of);
      return schema.keyPattern === null
        ? { type: "object", additionalProperties: of }
        : { type: "object", patternProperties: { [anyCase(schema.keyPattern)]: of }, additionalProperties: false };
    }
    case "either":
      return { anyOf: schema.options.map(convert) };
  }
}

function limits(range: {
  readonly min?: number;
  readonly max?: number;
  readonly over?: boolean;
  readonly under?: boolean;
}): { readonly [key: string]: Json } {
  const { min, max } = range;
  return {
    ...(min === undefined ? {} : range.over === true ? { exclusiveMinimum: min } : { minimum: min }),
    ...(max === undefined ? {} : range.under === true ? { exclusiveMaximum: max } : { maximum: max }),
  };
}

/** JSON Schema patterns know no flag for either case. */
function anyCase(pattern: string): string {
  return pattern.replace(/\\.|[a-z]/gi, (c) => (c.startsWith("\\") ? c : `[${c.toLowerCase()}${c.toUpperCase()}]`));
}
