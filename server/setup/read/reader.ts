/**
 * Reads a source tree by its schema. Every bad value is one problem at its place, becomes unknown, and leaves the rest
 * alone. Never throws.
 */
import { defaultUnit, parseQuantity, type Quantity, type UnitSystem } from "../../units/quantities.ts";
import { parseHardness } from "../hardness.ts";
import type { Infer, Schema } from "../schema/node.ts";
import type { SetupProblem } from "../types.ts";
import { expected, outside } from "./expected.ts";
import { type Findings, join } from "./findings.ts";
import { keyMeant, unitMeant } from "./hints.ts";
import { nearest } from "./nearest.ts";
import type { Source, SourceFile, Span } from "./source.ts";

/** Reads one value. Undefined: it could not be read, and the reason is in `findings`. */
export function read<S extends Schema>(
  schema: S,
  source: Source,
  path: string,
  file: SourceFile,
  units: UnitSystem | null,
  findings: Findings,
): Infer<S> | undefined {
  return new Reader(file, units, findings).value(schema, source, path, source.span) as Infer<S> | undefined;
}

class Reader {
  readonly #file: SourceFile;
  /** Null: the file's units could not be read, so a bare number has no unit. */
  readonly #units: UnitSystem | null;
  readonly #findings: Findings;

  constructor(file: SourceFile, units: UnitSystem | null, findings: Findings) {
    this.#file = file;
    this.#units = units;
    this.#findings = findings;
  }

  value(schema: Schema, source: Source, path: string, keySpan: Span): unknown {
    this.#findings.places.set(path, { file: this.#file, span: source.span, keySpan });
    const value = this.#read(schema, source, path);
    if (value === undefined) {
      if (!this.#findings.unknown.has(path))
        this.#findings.unknown.set(path, `${this.#file.say(source.span.start)}: could not be read`);
      return undefined;
    }
    if (schema.check === undefined) return value;
    let fatal = false;
    schema.check(value, (below, message, options) => {
      const full = join(path, below);
      if (options?.fatal === true) fatal = true;
      if (options?.absent === true && this.#brokenBelow(full)) return;
      const place = this.#findings.placeOf(full);
      const at = options?.onKey === true ? place?.keySpan : place?.span;
      const span = place?.file === this.#file && at !== undefined ? at : source.span;
      this.#findings.say(this.#file, this.#file.head(span), full, message, options?.severity);
      if (options?.fatal === true) this.#findings.unknown.set(path, `${this.#file.say(span.start)}: ${message}`);
    });
    if (!fatal) return value;
    if (!this.#findings.unknown.has(path))
      this.#findings.unknown.set(path, `${this.#file.say(source.span.start)}: could not be read`);
    return undefined;
  }

  #brokenBelow(path: string): boolean {
    for (const broken of this.#findings.unknown.keys()) {
      if (broken.startsWith(path) && /^[.[]/.test(broken.slice(path.length))) return true;
    }
    return false;
  }

  #bad(path: string, span: Span, message: string, severity: SetupProblem["severity"] = "error"): undefined {
    this.#findings.say(this.#file, this.#file.head(span), path, message, severity);
    this.#findings.unknown.set(path, `${this.#file.say(span.start)}: ${message}`);
    return undefined;
  }

  #read(schema: Schema, source: Source, path: string): unknown {
    if (schema.kind === "either") return this.#either(schema, source, path);
    if (source.kind === "scalar" && source.value === null) {
      const keySpan = this.#findings.places.get(path)?.keySpan ?? source.span;
      return this.#bad(path, keySpan, `expected ${expected(schema)}, got nothing yet`, "warning");
    }
    switch (schema.kind) {
      case "record":
        return this.#record(schema, source, path);
      case "map":
        return this.#map(schema, source, path);
      case "list":
        return this.#list(schema, source, path);
      default:
        return this.#scalar(schema, source, path);
    }
  }

  #scalar(schema: Schema, source: Source, path: string): unknown {
    if (source.kind !== "scalar" || source.value === null) {
      return this.#bad(path, source.span, `expected ${expected(schema)}, got ${kindOf(source)}`);
    }
    const { value, text, span } = source;
    const bad = (message: string): undefined => this.#bad(path, span, message);
    switch (schema.kind) {
      case "quantity": {
        if (typeof value === "boolean") return bad(`expected ${expected(schema)}, got ${value}`);
        const parsed = parseQuantity(value, schema.quantity, this.#units ?? "mm");
        if (typeof parsed === "string") {
          if (!/\d/.test(text)) return bad(`expected ${expected(schema)}, got ${quote(source)}`);
          const meant = unitMeant(text, schema.quantity);
          if (meant !== null) return bad(`expected ${expected(schema)}, got ${text}: write ${meant}`);
          return bad(commaHint(parsed, text));
        }
        if (this.#units === null && parsed.unit === null && dependsOnSystem(schema.quantity)) {
          // Said once, at `units:`.
          const why = `${this.#file.say(span.start)}: the file's units could not be read, so ${text} has no unit`;
          this.#findings.unknown.set(path, why);
          return undefined;
        }
        const limits = outside(parsed.value, schema, schema.quantity, this.#units ?? "mm");
        // Twelve figures: 35 % is 0.35, not the 0.35000000000000003 that the factor makes of it.
        if (limits === null) return Number(parsed.value.toPrecision(12));
        return bad(`expected ${expected(schema)}${schema.quantity === "share" ? "" : ` ${limits}`}, got ${text}`);
      }
      case "number": {
        const number =
          typeof value === "number"
            ? value
            : typeof value === "string" && /^\s*[+-]?(\d+\.?\d*|\.\d+)\s*$/.test(value)
              ? Number(value)
              : Number.NaN;
        if (!Number.isFinite(number) || (schema.whole && !Number.isInteger(number)))
          return bad(commaHint(`expected ${expected(schema)}, got ${quote(source)}`, text));
        const limits = outside(number, schema, null, "mm");
        return limits === null ? number : bad(`expected ${expected(schema)} ${limits}, got ${text}`);
      }
      case "flag":
        return typeof value === "boolean"
          ? value
          : /^(true|false)$/i.test(text)
            ? text.toLowerCase() === "true"
            : bad(`expected ${expected(schema)}, got ${quote(source)}`);
      case "hardness": {
        const parsed =
          typeof value === "boolean"
            ? `expected a hardness with its scale, got ${value}`
            : parseHardness(text === "" ? String(value) : text);
        return typeof parsed === "string" ? bad(parsed) : parsed;
      }
      case "choice": {
        if (Object.hasOwn(schema.values, text)) return text;
        const values = Object.keys(schema.values);
        const same = values.find((v) => v.toLowerCase() === text.trim().toLowerCase());
        if (same !== undefined) return same;
        const near = nearest(text, values);
        return bad(`expected ${expected(schema)}, got ${quote(source)}${near === null ? "" : `; ${near}?`}`);
      }
      case "text": {
        const words = typeof value === "string" ? value : text;
        return words.trim() === "" ? bad(`expected ${expected(schema)}, got an empty text`) : words.trim();
      }
      default:
        return undefined;
    }
  }

  #record(schema: Extract<Schema, { kind: "record" }>, source: Source, path: string): unknown {
    if (source.kind !== "map")
      return this.#bad(path, source.span, `expected ${expected(schema)}, got ${kindOf(source)}`);
    const result: Record<string, unknown> = {};
    let astray = false;
    for (const { key, keySpan, value } of source.entries) {
      const known = Object.hasOwn(schema.keys, key) ? schema.keys[key] : undefined;
      if (known === undefined) {
        if (this.#findings.full) continue;
        const near = keyMeant(key, schema);
        const elsewhere = Object.hasOwn(schema.elsewhere, key) ? schema.elsewhere[key] : undefined;
        const keys = near === null ? `; known: ${listed(Object.keys(schema.keys))}` : `; ${near}?`;
        const message = `${inQuotes(key)} is no key of ${schema.title}${elsewhere === undefined ? keys : `: ${elsewhere}`}`;
        const at = join(path, shortened(key));
        this.#findings.say(this.#file, keySpan, at, message, schema.strict ? "error" : "warning");
        if (schema.strict) {
          this.#findings.unknown.set(at, `${this.#file.say(keySpan.start)}: ${message}`);
          astray = true;
        }
        continue;
      }
      const read = this.value(known, value, join(path, key), keySpan);
      if (read !== undefined) result[key] = read;
    }
    const missing = schema.required.filter((key) => !source.entries.some((entry) => entry.key === key));
    if (missing.length > 0) {
      const place = this.#findings.places.get(path);
      const span = place === undefined || place.keySpan === place.span ? this.#file.head(source.span) : place.keySpan;
      this.#findings.say(this.#file, span, path, `expected ${missing.join(", ")} in ${schema.title}, got none`);
      for (const key of missing)
        this.#findings.unknown.set(join(path, key), `${this.#file.say(source.span.start)} does not name it`);
    }
    return astray ? undefined : result;
  }

  #map(schema: Extract<Schema, { kind: "map" }>, source: Source, path: string): unknown {
    if (source.kind !== "map")
      return this.#bad(path, source.span, `expected ${expected(schema)}, got ${kindOf(source)}`);
    const result = new Map<string, unknown>();
    const pattern = schema.keyPattern === null ? null : new RegExp(schema.keyPattern, "i");
    for (const { key, keySpan, value } of source.entries) {
      if (pattern !== null && !pattern.test(key)) {
        this.#findings.say(this.#file, keySpan, path, `expected ${schema.keyTitle}, got ${inQuotes(key)}`);
        continue;
      }
      const read = this.value(schema.of, value, join(path, key), keySpan);
      if (read !== undefined) result.set(pattern === null ? key : key.toUpperCase(), read);
    }
    return result;
  }

  #list(schema: Extract<Schema, { kind: "list" }>, source: Source, path: string): unknown {
    if (source.kind !== "list") {
      if (schema.single) {
        const one = this.value(schema.of, source, `${path}[0]`, source.span);
        return one === undefined ? undefined : [one];
      }
      return this.#bad(path, source.span, `expected ${expected(schema)}, got ${kindOf(source)}`);
    }
    if (schema.names !== null && source.items.length !== schema.names.length) {
      return this.#bad(
        path,
        source.span,
        `expected ${expected(schema)}, ${schema.names.length} values, got ${source.items.length}`,
      );
    }
    const values: unknown[] = [];
    const seen = new Map<string, Span>();
    const unknownBefore = this.#findings.unknown.size;
    source.items.forEach((item, index) => {
      const named = naming(schema, item);
      const name = named?.name ?? null;
      const first = name === null ? undefined : seen.get(name);
      if (name !== null && first === undefined) seen.set(name, item.span);
      const segment = schema.names?.[index] ?? (name === null || first !== undefined ? `[${index}]` : name);
      const value = this.value(schema.of, item, join(path, segment), item.span);
      if (value === undefined) return;
      if (first !== undefined && schema.unique) {
        this.#findings.say(
          this.#file,
          named?.span ?? item.span,
          join(path, name ?? ""),
          `stands twice; the one in line ${this.#file.place(first.start).line + 1} counts`,
        );
      } else values.push(value);
    });
    if (schema.whole && this.#findings.unknown.size > unknownBefore) {
      this.#findings.unknown.set(path, `${this.#file.say(source.span.start)}: a value in it could not be read`);
      return undefined;
    }
    return values;
  }

  #either(schema: Extract<Schema, { kind: "either" }>, source: Source, path: string): unknown {
    if (source.kind === "scalar" && typeof source.value === "string" && !/\d/.test(source.text)) {
      const words = schema.options.find((o) => o.kind === "choice");
      if (words?.kind === "choice" && !isWordOf(words.values, source.text)) {
        return this.#bad(path, source.span, `expected ${expected(schema)}, got ${quote(source)}`);
      }
    }
    const scalars = schema.options.filter((o) => o.kind !== "list" && o.kind !== "map" && o.kind !== "record");
    const fits =
      source.kind === "map"
        ? schema.options.find((o) => o.kind === "map" || o.kind === "record")
        : source.kind === "list"
          ? schema.options.find((o) => o.kind === "list")
          : (scalars.find((o) => o.kind === "choice" && isWordOf(o.values, source.text)) ??
            scalars.find((o) => o.kind !== "choice") ??
            scalars[0]);
    if (fits === undefined || (source.kind === "scalar" && source.value === null)) {
      const span = source.kind === "scalar" ? (this.#findings.places.get(path)?.keySpan ?? source.span) : source.span;
      const severity = source.kind === "scalar" && source.value === null ? "warning" : "error";
      return this.#bad(path, span, `expected ${expected(schema)}, got ${kindOf(source)}`, severity);
    }
    return this.value(fits, source, path, this.#findings.places.get(path)?.keySpan ?? source.span);
  }
}

const isWordOf = (values: Readonly<Record<string, string>>, text: string): boolean =>
  Object.hasOwn(values, text) || Object.hasOwn(values, text.trim().toLowerCase());

const listed = (keys: readonly string[]): string =>
  keys.length <= 10 ? keys.join(", ") : `${keys.slice(0, 10).join(", ")} ...`;

const dependsOnSystem = (quantity: Quantity): boolean =>
  defaultUnit(quantity, "mm").factor !== defaultUnit(quantity, "inch").factor;

/** The value that names an item of a list, as `T` does a tool. */
function naming(
  schema: Extract<Schema, { kind: "list" }>,
  item: Source,
): { readonly name: string; readonly span: Span } | null {
  if (item.kind !== "map") return null;
  for (const key of schema.itemKey) {
    const value = item.entries.find((entry) => entry.key === key)?.value;
    if (value?.kind !== "scalar" || value.value === null) continue;
    // `03` and `3.0` are tool 3.
    const name = /^\d+(\.0*)?$/.test(value.text) ? String(Number(value.text)) : value.text;
    if (/^[^\s.[\]]+$/.test(name)) return { name: schema.itemPrefix + name, span: value.span };
  }
  return null;
}

function kindOf(source: Source): string {
  if (source.kind === "list") return source.items.length === 0 ? "an empty list" : "a list";
  if (source.kind === "map") {
    const key = source.entries[0]?.key;
    if (key === undefined) return "an empty map";
    return /^-\S/.test(key) ? `a map: a space is missing after the - of ${inQuotes(key)}` : "a map";
  }
  if (source.value === null) return "nothing yet";
  return `${quote(source)}${/^[\w-]+:[^\s/\\]/.test(source.text) ? ": a space is missing after the colon" : ""}`;
}

function quote(source: Source & { kind: "scalar" }): string {
  return typeof source.value === "string" ? inQuotes(source.text) : shortened(source.text);
}

const inQuotes = (text: string): string => `"${shortened(text)}"`;

/** In one line, and no longer than a message can bear. */
function shortened(text: string): string {
  const line = text.trim().replace(/\s+/g, " ");
  return line.length > 60 ? `${line.slice(0, 57)}...` : line;
}

/** A decimal comma is the commonest slip of people who write commas. */
function commaHint(message: string, text: string): string {
  return /^\s*[+-]?\d+,\d+/.test(text)
    ? `${message}; write the decimal point as a point: ${text.trim().replace(",", ".")}`
    : message;
}
