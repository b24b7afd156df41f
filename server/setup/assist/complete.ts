/** Completion in setup files: keys by place, values by kind. Works while the text is half written. */
import type { UnitSystem } from "../../units/quantities.ts";
import { expected } from "../read/expected.ts";
import { flatten, ITEM, schemasAt } from "../schema/at.ts";
import { SETUP } from "../schema/index.ts";
import type { Schema, TextRole } from "../schema/node.ts";
import type { AssistContext } from "./problems.ts";
import { type Cursor, scan, type Token } from "./scan.ts";
import { type Completion, type Draft, declared, documentation, valuesOf } from "./values.ts";

export type { Completion };

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
  const written = text.split(/\r\n|\r|\n/)[line] ?? "";
  const lead = written.length - written.trimStart().length;
  // An editor indents a snippet's lines like the line they stand in; what stands behind a dash is deeper than that.
  const deeper = cursor.fresh ? " ".repeat(Math.max(0, cursor.start - lead)) : "";
  // A value straight behind its colon needs a blank before it.
  const blank = cursor.mode === "value" && written[cursor.start - 1] === ":" ? " " : "";
  return made.map((item) => ({ ...item, insert: blank + item.insert.replaceAll("\n", `\n${deeper}`), replace }));
}

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
  // A single map may stand without the list around it.
  const schemas = flatten(schemasAt(SETUP, cursor.path)).flatMap((schema) =>
    schema.kind === "list" && schema.single && schema.of.kind === "record" ? [schema, schema.of] : [schema],
  );
  const branches = schemas.some((schema) => ["record", "map", "list"].includes(schema.kind));
  for (const schema of schemas) {
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
    } else if (cursor.fresh && (cursor.path.at(-1) === ITEM || !branches)) {
      // After a dash, or below a key that takes no map or list, a word may stand by itself.
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
      if (first.single && first.of.kind === "record") return keySnippet(key, first.of, cursor);
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
