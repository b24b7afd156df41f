/**
 * The schema language of the setup. One description of a key is the source of its TypeScript type (`Infer`), of the
 * messages with a place, of the JSON Schema, of completion and of hovers.
 *
 * Our own rather than a validation library's, because a broken value must cost that value alone, at its exact place
 * and in the trade's units, while all the rest is still read; and because completion and hovers need the description
 * of a key long before the text around it is valid.
 */
import type { Quantity } from "../../units/quantities.ts";

/** Where a text value takes its choices from: for completion and for references. */
export type TextRole =
  | "plain"
  | "glob"
  | "machine-name"
  | "tools-name"
  | "workpiece-name"
  | "material"
  | "dialect"
  | "entry"
  | "check"
  | "wcs"
  | "m-code"
  | "g-code";

export interface Doc {
  /** One or two sentences, for hovers and the JSON Schema. */
  readonly description: string;
  /** As a person would write it. */
  readonly examples?: readonly string[];
  /** What holds when the key is left out, in words. */
  readonly fallback?: string;
}

export interface SayOptions {
  readonly severity?: "error" | "warning" | "info";
  /** The whole value becomes unknown. */
  readonly fatal?: boolean;
  /** The message misses something: not said when a broken value inside is the reason that it is missing. */
  readonly absent?: boolean;
  /** What is wrong is that the key is there at all: the message stands on the key. */
  readonly onKey?: boolean;
}

/** Says a problem at a path below the value that is checked. */
export type Say = (at: string, message: string, options?: SayOptions) => void;

export interface Range {
  readonly min?: number;
  readonly max?: number;
  /** The minimum itself is not allowed. */
  readonly over?: boolean;
  /** The maximum itself is not allowed. */
  readonly under?: boolean;
}

type Shape =
  | ({ readonly kind: "quantity"; readonly quantity: Quantity } & Range)
  | ({ readonly kind: "number"; readonly whole: boolean } & Range)
  | { readonly kind: "text"; readonly role: TextRole }
  | { readonly kind: "flag" }
  | { readonly kind: "hardness" }
  | { readonly kind: "choice"; readonly values: Readonly<Record<string, string>> }
  | {
      readonly kind: "list";
      readonly of: Schema;
      /** Exactly these many items; a broken one makes the whole list unknown. */
      readonly names: readonly string[] | null;
      /** A broken item makes the whole list unknown (an envelope with a point missing is another envelope). */
      readonly whole: boolean;
      /** A single value may stand without brackets. */
      readonly single: boolean;
      /** Keys of the item that name it in a path, with a prefix: `T` gives `T3`. */
      readonly itemKey: readonly string[];
      readonly itemPrefix: string;
      /** Two items with the same name are a problem. */
      readonly unique: boolean;
    }
  | {
      readonly kind: "record";
      readonly keys: Readonly<Record<string, Schema>>;
      readonly required: readonly string[];
      readonly title: string;
      /** An unknown key makes the whole map unknown: without it, it would mean something else. */
      readonly strict: boolean;
      /** Unknown keys that are known somewhere else: key → what to do. */
      readonly elsewhere: Readonly<Record<string, string>>;
    }
  | {
      readonly kind: "map";
      readonly of: Schema;
      readonly keyRole: TextRole;
      readonly keyPattern: string | null;
      readonly keyTitle: string;
    }
  | { readonly kind: "either"; readonly options: readonly Schema[] };

/** `T` is the type of the value as read; the property that carries it never exists. */
interface Typed<T> {
  readonly typeOnly?: T;
}

export type Schema<T = unknown> = Typed<T> & Doc & Shape & { readonly check?: (value: unknown, say: Say) => void };

export type Infer<S> = S extends Typed<infer T> ? T : never;

type Keys = Readonly<Record<string, Schema>>;
/** What could be read of a map: any key may be missing or broken. */
export type Read<K extends Keys> = { readonly [P in keyof K]?: Infer<K[P]> };

type Check<T> = (value: T, say: Say) => void;

function withCheck<T>(schema: Doc & Shape, check?: Check<T>): Schema<T> {
  if (check === undefined) return schema;
  return { ...schema, check: (value, say) => check(value as T, say) };
}

/** A number with a unit, read into the base unit. Limits are in the base unit. */
export function quantity(kind: Quantity, doc: Doc, range: Range = { min: 0, over: true }): Schema<number> {
  return { kind: "quantity", quantity: kind, ...range, ...doc };
}

export function number(doc: Doc, range: Range = {}): Schema<number> {
  return { kind: "number", whole: false, ...range, ...doc };
}

export function whole(doc: Doc, range: Range = {}): Schema<number> {
  return { kind: "number", whole: true, ...range, ...doc };
}

export function text(role: TextRole, doc: Doc, check?: Check<string>): Schema<string> {
  return withCheck<string>({ kind: "text", role, ...doc }, check);
}

export function flag(doc: Doc): Schema<boolean> {
  return { kind: "flag", ...doc };
}

/** Hardness or strength with its scale; read into Brinell. */
export interface ReadHardness {
  readonly hb: number;
  /** As written. */
  readonly text: string;
  /** How it was converted, empty when it was Brinell. */
  readonly note: string;
}

export function hardness(doc: Doc): Schema<ReadHardness> {
  return { kind: "hardness", ...doc };
}

export function choice<V extends string>(values: Readonly<Record<V, string>>, doc: Doc): Schema<V> {
  return { kind: "choice", values, ...doc };
}

interface ListOptions {
  readonly whole?: boolean;
  readonly single?: boolean;
  readonly itemKey?: readonly string[];
  readonly itemPrefix?: string;
  readonly unique?: boolean;
}

export function list<T>(
  of: Schema<T>,
  doc: Doc,
  options: ListOptions = {},
  check?: Check<readonly T[]>,
): Schema<readonly T[]> {
  return withCheck<readonly T[]>(
    {
      kind: "list",
      of,
      names: null,
      whole: options.whole ?? false,
      single: options.single ?? false,
      itemKey: options.itemKey ?? [],
      itemPrefix: options.itemPrefix ?? "",
      unique: options.unique ?? false,
      ...doc,
    },
    check,
  );
}

const tupleOptions = { kind: "list", whole: true, single: false, itemKey: [], itemPrefix: "", unique: false } as const;

export function pair<T>(
  of: Schema<T>,
  names: readonly [string, string],
  doc: Doc,
  check?: Check<readonly [T, T]>,
): Schema<readonly [T, T]> {
  return withCheck<readonly [T, T]>({ ...tupleOptions, of, names, ...doc }, check);
}

export function triple<T>(
  of: Schema<T>,
  names: readonly [string, string, string],
  doc: Doc,
  check?: Check<readonly [T, T, T]>,
): Schema<readonly [T, T, T]> {
  return withCheck<readonly [T, T, T]>({ ...tupleOptions, of, names, ...doc }, check);
}

interface RecordOptions {
  readonly strict?: boolean;
  readonly elsewhere?: Readonly<Record<string, string>>;
}

/** A map with known keys. `title` names it in messages: `a spindle`. */
export function record<K extends Keys>(
  title: string,
  keys: K,
  doc: Doc,
  required: readonly (keyof K & string)[] = [],
  check?: Check<Read<K>>,
  options: RecordOptions = {},
): Schema<Read<K>> {
  const { strict = false, elsewhere = {} } = options;
  return withCheck<Read<K>>({ kind: "record", title, keys, required, strict, elsewhere, ...doc }, check);
}

/** A map whose keys are names of the reader's own. */
export function map<T>(
  of: Schema<T>,
  doc: Doc,
  options: { readonly keyRole?: TextRole; readonly keyPattern?: string; readonly keyTitle: string },
): Schema<ReadonlyMap<string, T>> {
  return {
    kind: "map",
    of,
    keyRole: options.keyRole ?? "plain",
    keyPattern: options.keyPattern ?? null,
    keyTitle: options.keyTitle,
    ...doc,
  };
}

/** One of several forms, told apart by whether a word, a list or a map stands there. */
export function either<A, B>(a: Schema<A>, b: Schema<B>, doc: Doc): Schema<A | B> {
  return { kind: "either", options: [a, b], ...doc };
}
