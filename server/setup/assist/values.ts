/** Completion of values: choices, units, materials, names that the file declares. */
import { defaultUnit, UNITS, type UnitSystem } from "../../units/quantities.ts";
import { unitIn } from "../../units/wording.ts";
import { readyDialects } from "../dialects/index.ts";
import { builtInMaterials } from "../materials/find.ts";
import type { Schema, TextRole } from "../schema/node.ts";
import type { AssistContext } from "./problems.ts";
import type { Cursor, Token } from "./scan.ts";

export interface Completion {
  readonly label: string;
  /** Snippet text: `$1`, `${1:name}`, `${1|a,b|}` are places to fill. */
  readonly insert: string;
  readonly detail: string;
  /** Markdown. */
  readonly documentation: string;
  readonly kind: "key" | "value" | "unit" | "material" | "reference";
  /** Columns of the cursor's line that the insert replaces. */
  readonly replace: { readonly start: number; readonly end: number };
}

export type Draft = Omit<Completion, "replace">;

/** The values that may stand where this schema holds. */
export function valuesOf(
  schema: Schema,
  cursor: Cursor,
  tokens: readonly Token[],
  units: UnitSystem,
  context: AssistContext,
): Draft[] {
  const plain = (label: string, detail: string, doc = "", kind: Completion["kind"] = "value"): Draft => ({
    label,
    insert: literal(label),
    detail,
    documentation: doc,
    kind,
  });
  switch (schema.kind) {
    case "choice":
      return Object.entries(schema.values).map(([value, doc]) => plain(value, doc, documentation(schema)));
    case "flag":
      return ["true", "false"].map((value) => plain(value, schema.description));
    case "quantity": {
      const number = /^[+-]?(\d+\.?\d*|\.\d+)/.exec(cursor.prefix)?.[0];
      if (number !== undefined) {
        return UNITS[schema.quantity].map((row) =>
          plain(
            `${number} ${unitName(row.names[0] ?? "")}`,
            `written in ${unitName(row.names[0] ?? "")}`,
            documentation(schema),
            "unit",
          ),
        );
      }
      const bare = defaultUnit(schema.quantity, units);
      const hint = `bare numbers are ${bareUnit(schema, units, bare.names[0] ?? "")} in this file; a written unit wins`;
      return (schema.examples ?? []).map((example) => plain(example, hint, documentation(schema)));
    }
    case "hardness": {
      const number = /^\d+(\.\d+)?/.exec(cursor.prefix)?.[0];
      if (number === undefined)
        return (schema.examples ?? []).map((example) =>
          plain(example, "hardness with its scale", documentation(schema)),
        );
      return ["HB", "HRC", "HV", "MPa", "ksi"].map((scale) =>
        plain(`${number} ${scale}`, `hardness or strength in ${scale}`, documentation(schema), "unit"),
      );
    }
    case "number":
      return (schema.examples ?? []).map((example) => plain(example, schema.description));
    case "text":
      return texts(schema.role, schema, tokens, context, plain);
    case "list":
      if (schema.names === null) return [];
      return [
        {
          label: `[${schema.names.join(", ")}]`,
          insert: `[${schema.names.map((name, i) => `\${${i + 1}:${name}}`).join(", ")}]`,
          detail: schema.description,
          documentation: documentation(schema),
          kind: "value",
        },
      ];
    default:
      return [];
  }
}

function texts(
  role: TextRole,
  schema: Schema,
  tokens: readonly Token[],
  context: AssistContext,
  plain: (label: string, detail: string, doc?: string, kind?: Completion["kind"]) => Draft,
): Draft[] {
  switch (role) {
    case "dialect":
      return [...readyDialects.keys()].map((name) => plain(name, "ready dialect", documentation(schema)));
    case "machine-name":
      return declared("machines", tokens).map((name) => plain(name, "declared under machines:", "", "reference"));
    case "tools-name":
      return declared("tools", tokens).map((name) => plain(name, "declared under tools:", "", "reference"));
    case "workpiece-name":
      return declared("workpieces", tokens).map((name) => plain(name, "declared under workpieces:", "", "reference"));
    case "material":
      return [
        ...declared("materials", tokens).map((name) => plain(name, "declared under materials:", "", "reference")),
        ...builtInMaterials.map((material) => ({
          ...plain(
            material.key,
            [`group ${material.group}`, ...material.designations].join(", "),
            material.condition,
            "material",
          ),
        })),
      ];
    case "check":
      return (context.checks ?? []).map((id) => plain(id, "check"));
    case "wcs":
      return ["G54", "G55", "G56", "G57", "G58", "G59"].map((code) => plain(code, "work coordinate system"));
    case "m-code":
      return ["M7", "M8", "M9", "M88"].map((code) => plain(code, "M code"));
    case "entry":
      return ENTRIES.map(([label, insert, doc]) => ({
        label,
        insert: insert.replace(/<(\d[^>]*)>/g, "$${$1}"),
        detail: doc,
        documentation: "",
        kind: "value",
      }));
    default:
      return (schema.examples ?? []).map((example) => plain(example, schema.description));
  }
}

/** The entry language, as snippets; `<1:30>` is a place to fill. */
const ENTRIES: readonly (readonly [label: string, insert: string, doc: string])[] = [
  ["INCLINE 30 DEG", '"INCLINE <1:30> DEG"', "a face inclined from one square to the drill"],
  ["EDGE AREA 30 PCT", '"EDGE AREA <1:30> PCT"', "a straight edge: share of the hole's area in metal"],
  ["EDGE AXIS IN 3.5", '"EDGE AXIS <1|IN,OUT|> <2:3.5>"', "a straight edge: distance of the drill axis from it"],
  ["RIDGE FLANK 30 DEG", '"RIDGE FLANK <1:30> DEG OFFSET <2:0.>"', "a ridge whose flanks fall away on both sides"],
  ["CYLINDER D120 CONVEX", '"CYLINDER D<1:120> <2|CONVEX,CONCAVE|>"', "a cylinder across the drill axis"],
  ["CHAIN PITCH 15.", '"CHAIN PITCH <1:15.>"', "a neighbour of the same diameter already drilled"],
  ["WEB PITCH 15.", '"WEB PITCH <1:15.>"', "neighbours on both sides already drilled"],
  ["SKIN", "SKIN", "cast or forged skin"],
  ["FLAT", "FLAT", "a face square to the drill"],
];

/** Names declared in a section of this text. */
export function declared(section: string, tokens: readonly Token[]): string[] {
  return tokens
    .filter((token) => token.kind === "key" && token.path.length === 2 && token.path[0] === section)
    .map((token) => token.text);
}

export function documentation(schema: Schema): string {
  const parts = [schema.description];
  if (schema.fallback !== undefined) parts.push(`Left out: ${schema.fallback}.`);
  if (schema.examples !== undefined && schema.examples.length > 0)
    parts.push(`For example ${schema.examples.map((example) => `\`${example}\``).join(" or ")}.`);
  return parts.filter((part) => part !== "").join("\n\n");
}

function bareUnit(schema: Schema & { kind: "quantity" }, units: UnitSystem, fallback: string): string {
  return schema.quantity === "share" ? "from 0 to 1" : (unitIn(schema.quantity, units) ?? fallback);
}

const NAMES: Readonly<Record<string, string>> = {
  kw: "kW",
  hp: "hp",
  w: "W",
  n·m: "N·m",
  n: "N",
  kn: "kN",
  mpa: "MPa",
  "l/min": "L/min",
};
const unitName = (name: string): string => NAMES[name] ?? name;

/** Characters that a snippet would take as its own. */
const literal = (text: string): string => text.replace(/[\\$}]/g, "\\$&");
