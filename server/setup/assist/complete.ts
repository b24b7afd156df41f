/** Completion in setup files: keys by place, values by kind. Works while the text is half written. */
import { defaultUnit, UNITS, type UnitSystem } from "../../units/quantities.ts";
import { unitIn } from "../../units/wording.ts";
import { readyDialects } from "../dialects/index.ts";
import { builtInMaterials } from "../materials/find.ts";
import { expected } from "../read/expected.ts";
import { flatten, ITEM, schemasAt } from "../schema/at.ts";
import { SETUP } from "../schema/index.ts";
import type { Schema, TextRole } from "../schema/node.ts";
import type { AssistContext } from "./problems.ts";
import { type Cursor, scan, type Token } from "./scan.ts";

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

/** @param line @param column from 0, UTF-16 units */
export function completeSetup(
  text: string,
  line: number,
  column: number,
  context: AssistContext = {},
): readonly Completion[] {
  const { tokens, cursor } = scan(text, { line, column });
  if (cursor === null) return [];
  const replace = { start: cursor.start, end: cursor.end };
  const made =
    cursor.mode === "key" ? keys(cursor, line, tokens, context) : values(cursor, tokens, unitsOf(tokens), context);
  return made.map((item) => ({ ...item, replace }));
}

type Draft = Omit<Completion, "replace">;

/** The file's unit system as far as it is written. */
export function unitsOf(tokens: readonly Token[]): UnitSystem {
  const written = tokens.find(
    (token) => token.kind === "value" && token.path.length === 1 && token.path[0] === "units",
  );
  return written?.text === "inch" ? "inch" : "mm";
}

function keys(cursor: Cursor, line: number, tokens: readonly Token[], context: AssistContext): Draft[] {
  const present = new Set(
    tokens.filter((token) => token.kind === "key" && token.container === cursor.container).map((token) => token.text),
  );
  // The word under the cursor is being written: it does not stand in its own way.
  const under = tokens.find((token) => token.kind === "key" && token.line === line && token.start === cursor.start);
  const own = cursor.fresh ? "" : (under?.text ?? "");
  const items: Draft[] = [];
  for (const schema of flatten(schemasAt(SETUP, cursor.path))) {
    if (schema.kind === "record") {
      for (const [key, value] of Object.entries(schema.keys)) {
        if (present.has(key) && key !== own) continue;
        items.push({
          label: key,
          insert: keySnippet(key, value, cursor),
          detail: expected(value),
          documentation: documentation(value),
          kind: "key",
        });
      }
    } else if (schema.kind === "map") {
      for (const key of keyNames(schema.keyRole, tokens, context)) {
        if (present.has(key)) continue;
        items.push({
          label: key,
          insert: keySnippet(key, schema.of, cursor),
          detail: schema.keyTitle,
          documentation: documentation(schema.of),
          kind: "key",
        });
      }
      if (schema.keyRole === "plain") {
        items.push({
          label: "name",
          insert: `\${1:name}:${cursor.flow ? " { $2 }" : "\n  $2"}`,
          detail: schema.keyTitle,
          documentation: documentation(schema.of),
          kind: "key",
        });
      }
    } else if (schema.kind === "list" && cursor.fresh && schema.names === null) {
      items.push({
        label: "- ",
        insert: listItem(schema.of),
        detail: `one more: ${expected(schema.of)}`,
        documentation: documentation(schema.of),
        kind: "key",
      });
    } else if (cursor.fresh && cursor.path.at(-1) === ITEM) {
      // After a dash the item itself may be a word.
      items.push(...valuesOf(schema, cursor, tokens, unitsOf(tokens), context));
    }
  }
  return items;
}

function keyNames(role: TextRole, tokens: readonly Token[], context: AssistContext): readonly string[] {
  switch (role) {
    case "check":
      return context.checks ?? [];
    case "m-code":
      return ["M7", "M8", "M88"];
    case "g-code":
      return ["G73", "G81", "G82", "G83", "G84"];
    case "wcs":
      return ["G54", "G55", "G56", "G57", "G58", "G59"];
    case "material":
      return declared("materials", tokens);
    default:
      return [];
  }
}

/** A key with what comes after its colon, ready to be filled. */
function keySnippet(key: string, schema: Schema, cursor: Cursor): string {
  // When a colon stands behind the word already, only the word is replaced.
  if (!cursor.fresh && !cursor.flow) return key;
  const first = flatten([schema])[0] ?? schema;
  switch (first.kind) {
    case "choice":
      return `${key}: \${1|${Object.keys(first.values).join(",")}|}`;
    case "flag":
      return `${key}: \${1|true,false|}`;
    case "record":
      return cursor.flow ? `${key}: { $1 }` : `${key}:\n  $1`;
    case "map":
      return cursor.flow ? `${key}: { $1 }` : `${key}:\n  $1`;
    case "list":
      if (first.names !== null) return `${key}: [${first.names.map((name, i) => `\${${i + 1}:${name}}`).join(", ")}]`;
      if (first.single) return `${key}: $1`;
      return cursor.flow || first.of.kind !== "record" ? `${key}: [$1]` : `${key}:\n  - $1`;
    default:
      return `${key}: $1`;
  }
}

function listItem(of: Schema): string {
  if (of.kind !== "record") return "- $1";
  const [first] = of.required.length > 0 ? of.required : Object.keys(of.keys);
  return first === undefined ? "- $1" : `- ${first}: $1`;
}

function values(cursor: Cursor, tokens: readonly Token[], units: UnitSystem, context: AssistContext): Draft[] {
  const schemas = flatten(schemasAt(SETUP, cursor.path));
  const items: Draft[] = [];
  for (const schema of schemas) {
    // A list that also takes one value without brackets.
    const one = schema.kind === "list" && schema.single ? [schema.of] : [];
    for (const each of [schema, ...one]) items.push(...valuesOf(each, cursor, tokens, units, context));
  }
  return items;
}

function valuesOf(
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
function declared(section: string, tokens: readonly Token[]): string[] {
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
