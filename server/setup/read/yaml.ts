/** YAML text to the source tree. Broken YAML gives problems and whatever could still be read; it never throws. */
import {
  type Alias,
  Composer,
  type Document,
  isAlias,
  isMap,
  isScalar,
  isSeq,
  type Node,
  type Pair,
  type ParsedNode,
  Parser,
  type Scalar,
  type YAMLMap,
  type YAMLSeq,
} from "yaml";
import type { SetupProblem } from "../types.ts";
import type { Source, SourceEntry, SourceFile, Span } from "./source.ts";
import { untab } from "./untab.ts";
import { type Fault, plain, wordFaults, type YamlError } from "./yaml-words.ts";

/** Larger files are no setup; reading them would hold up the editor. */
export const MAX_CHARACTERS = 2_000_000;
const MAX_DEPTH = 40;
/** Values read from one file, aliases counted each time they are used. */
const MAX_VALUES = 100_000;

/** More problems than this help nobody. */
const MAX_PROBLEMS = 200;

export interface YamlReading {
  /** Null: nothing in the file, or nothing that could be read. */
  readonly root: Source | null;
  readonly problems: readonly SetupProblem[];
  /** Lines (from 0) whose form is broken: what is read from them is not what was meant. */
  readonly broken: ReadonlySet<number>;
}

export function readYaml(file: SourceFile): YamlReading {
  const problems: SetupProblem[] = [];
  const say: Say = (span, message, severity = "error", path) => {
    const range = file.range(span);
    // The library says one mistake once for every level that it breaks.
    const again = problems.findIndex(
      (p) => p.message === message && p.range.line === range.line && p.range.column === range.column,
    );
    const problem = { file: file.uri, severity, range, message };
    // A value that several parts share by an alias is in no one of them.
    if (again >= 0) problems[again] = problem;
    else if (problems.length < MAX_PROBLEMS) problems.push(path === undefined ? problem : { ...problem, path });
  };
  if (file.text.length > MAX_CHARACTERS) {
    say(
      { start: 0, end: 0 },
      `expected a file of at most ${MAX_CHARACTERS} characters, got ${file.text.length}: not read`,
    );
    return { root: null, problems, broken: new Set() };
  }
  const deep = tooDeep(file.text);
  if (deep !== null) {
    say({ start: deep, end: deep + 1 }, `nested deeper than ${MAX_DEPTH} levels: the file is not read`);
    return { root: null, problems, broken: new Set() };
  }
  const composed = compose(file.text);
  if (typeof composed === "string") {
    say({ start: 0, end: 0 }, `cannot be read as YAML: ${composed}`);
    return { root: null, problems, broken: new Set() };
  }
  if (composed === null) return { root: null, problems, broken: new Set() };
  const { document, second, faults, back } = withoutTabs(composed, file);
  if (second !== null) say({ start: second, end: second }, "a second document begins here: it is not read", "warning");
  for (const { span, message } of faults) say(span, message);
  const broken = new Set(problems.filter((p) => p.severity === "error").map((p) => p.range.line));
  for (const { span, message } of wordFaults(placed(document.warnings, back), file)) say(span, message, "warning");
  const walker = new Walker(
    file,
    (span, message, ...rest) => {
      // Where brackets do not match, a list or map is read as a key.
      const follows = message === NO_PLAIN_KEY && broken.size > 0;
      if (!follows && !broken.has(file.place(span.start).line)) say(span, message, ...rest);
    },
    back,
  );
  const root = document.contents === null ? null : walker.value(document.contents, 0);
  return { root, problems, broken };
}

interface Read extends Composed {
  readonly faults: readonly Fault[];
  /** Offset in the text as written. */
  readonly back: (offset: number) => number;
}

/** Read again with spaces where lines are indented by tabs. */
function withoutTabs(composed: Composed, file: SourceFile): Read {
  const { errors } = composed.document;
  const tabs = errors.filter((error) => error.code === "TAB_AS_INDENT");
  const repaired = tabs.length === 0 ? null : untab(file.text);
  const again = repaired === null ? null : compose(repaired.text);
  if (repaired === null || again === null || typeof again === "string")
    return { ...composed, faults: wordFaults(errors, file), back: (offset) => offset };
  const { back } = repaired;
  return {
    document: again.document,
    second: again.second === null ? null : back(again.second),
    faults: wordFaults([...tabs, ...placed(again.document.errors, back)], file),
    back,
  };
}

function placed(errors: readonly YamlError[], back: (offset: number) => number): YamlError[] {
  return errors.map(({ code, message, pos: [start, end] }) => ({ code, message, pos: [back(start), back(end)] }));
}

const NO_PLAIN_KEY = "expected a plain word as key, got a list, map or alias";

type Say = (span: Span, message: string, severity?: SetupProblem["severity"], path?: string) => void;

interface Composed {
  readonly document: Document<ParsedNode>;
  /** Where a second document begins, if there is one. */
  readonly second: number | null;
}

function compose(text: string): Composed | string | null {
  try {
    const parser = new Parser();
    // Duplicate keys are found by the walker, which can say where the first one stands.
    const composer = new Composer({
      uniqueKeys: false,
      version: "1.2",
      prettyErrors: false,
      strict: true,
      logLevel: "silent",
    });
    const documents = [...composer.compose(parser.parse(text), false, text.length)];
    const document = documents[0];
    if (document === undefined) return null;
    return { document: document as Document<ParsedNode>, second: documents[1]?.range?.[0] ?? null };
  } catch (error) {
    // The library throws on a few malformed inputs that it does not report as errors.
    return error instanceof Error ? plain(error.message) : "unknown reason";
  }
}

/** Offset where the nesting passes the limit; found before composing, which recurses. */
function tooDeep(text: string): number | null {
  let flow = 0;
  let quote = 0;
  let lineStart = true;
  let dashes = 0;
  const indents: number[] = [];
  let column = 0;
  for (let i = 0; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 10 || c === 13) {
      lineStart = true;
      column = 0;
      dashes = 0;
      continue;
    }
    if (quote !== 0) {
      if (c === 92 && quote === 34) i++;
      else if (c === quote) quote = 0;
      continue;
    }
    if (lineStart && c === 32) {
      column++;
      continue;
    }
    if (lineStart) {
      lineStart = false;
      while (indents.length > 0 && (indents.at(-1) ?? 0) >= column) indents.pop();
      indents.push(column);
    }
    if ((c === 45 || c === 63 || c === 58) && isSpace(text.charCodeAt(i + 1))) dashes++;
    else if (c === 34 || c === 39) {
      const before = text.charCodeAt(i - 1);
      if (i === 0 || isSpace(before) || before === 91 || before === 123 || before === 44 || before === 58) quote = c;
    } else if (c === 35 && (i === 0 || isSpace(text.charCodeAt(i - 1)))) {
      while (i + 1 < text.length && text.charCodeAt(i + 1) !== 10 && text.charCodeAt(i + 1) !== 13) i++;
    } else if (c === 91 || c === 123) flow++;
    else if ((c === 93 || c === 125) && flow > 0) flow--;
    if (flow + indents.length + dashes > MAX_DEPTH * 2 || flow > MAX_DEPTH) return i;
  }
  return null;
}

const isSpace = (c: number): boolean => c === 32 || c === 9 || c === 10 || c === 13 || Number.isNaN(c);

class Walker {
  readonly #file: SourceFile;
  readonly #say: Say;
  #left = MAX_VALUES;
  #saidFull = false;
  readonly #anchors = new Map<string, Node>();
  readonly #targets = new Map<Alias, Node>();
  /** Keys down to the value that is being read. */
  readonly #path: string[] = [];
  /** Lists and maps that are being read, to find an alias of what it stands in. */
  readonly #open = new Set<unknown>();

  readonly #back: (offset: number) => number;

  constructor(file: SourceFile, say: Say, back: (offset: number) => number) {
    this.#file = file;
    this.#say = say;
    this.#back = back;
  }

  #spanOf(node: Node | null): Span | null {
    const span = spanOf(node);
    return span === null ? null : { start: this.#back(span.start), end: this.#back(span.end) };
  }

  value(node: Node | null, depth: number, at: Span = { start: 0, end: 0 }): Source {
    const span = this.#spanOf(node) ?? at;
    const nothing: Source = { kind: "scalar", value: null, text: "", span };
    if (node === null) return nothing;
    if (--this.#left < 0 || depth > MAX_DEPTH * 2) {
      if (!this.#saidFull)
        this.#say(
          span,
          depth > MAX_DEPTH * 2
            ? `nested deeper than ${MAX_DEPTH * 2} levels: the rest is not read`
            : "more values than a setup may hold: the rest is not read",
        );
      this.#saidFull = true;
      return nothing;
    }
    if (isAlias(node)) return this.#alias(node, depth, span);
    const anchor = (node as Scalar | YAMLMap | YAMLSeq).anchor;
    if (anchor !== undefined) this.#anchors.set(anchor, node);
    if (isScalar(node)) {
      const text = typeof node.source === "string" ? node.source : String(node.value ?? "");
      const value = node.value;
      if (typeof value === "string" || typeof value === "number" || typeof value === "boolean" || value === null) {
        return { kind: "scalar", value, text, span };
      }
      return { kind: "scalar", value: text, text, span };
    }
    if (!isSeq(node) && !isMap(node)) return nothing;
    this.#open.add(node);
    const read = this.#inside(node, depth, span);
    this.#open.delete(node);
    return read;
  }

  #inside(node: YAMLSeq | YAMLMap, depth: number, span: Span): Source {
    if (isSeq(node)) {
      const items: Source[] = [];
      for (const item of node.items) {
        if (this.#left < 0) break;
        items.push(this.value(isPair(item) ? null : (item as Node | null), depth + 1, span));
      }
      return { kind: "list", items, span };
    }
    return { kind: "map", entries: this.#entries(node, depth, span), span };
  }

  #alias(node: Alias, depth: number, span: Span): Source {
    const nothing: Source = { kind: "scalar", value: null, text: "", span };
    // An alias names the anchor that stood last above it, however often its place is read again.
    const target = this.#targets.get(node) ?? this.#anchors.get(node.source);
    if (target !== undefined) this.#targets.set(node, target);
    if (target === undefined) {
      this.#say(span, `no value is named &${node.source} above this line`);
      return nothing;
    }
    if (this.#open.has(target)) {
      this.#say(span, `*${node.source} stands inside the value that it names`);
      return nothing;
    }
    return { ...this.value(target, depth + 1), span };
  }

  #entries(node: YAMLMap, depth: number, span: Span): SourceEntry[] {
    const entries: SourceEntry[] = [];
    const merged: SourceEntry[] = [];
    const seen = new Map<string, Span>();
    for (const pair of node.items as Pair<Node | null, Node | null>[]) {
      if (this.#left < 0) break;
      const keyNode = pair.key;
      const keySpan = this.#spanOf(keyNode) ?? span;
      if (keyNode !== null && !isScalar(keyNode)) {
        if (isAlias(keyNode) || isMap(keyNode) || isSeq(keyNode)) this.#say(keySpan, NO_PLAIN_KEY);
        continue;
      }
      const key = keyNode === null ? "" : String(keyNode.value ?? "");
      if (key === "") {
        this.#say(keySpan, "expected a key before the colon, got nothing");
        continue;
      }
      this.#path.push(key);
      const value = this.value(pair.value, depth + 1, { start: keySpan.end, end: keySpan.end });
      this.#path.pop();
      if (key === "<<") {
        for (const source of value.kind === "list" ? value.items : [value])
          if (source.kind === "map") merged.push(...source.entries);
        continue;
      }
      const first = seen.get(key);
      if (first !== undefined) {
        this.#say(
          keySpan,
          `"${key}" stands twice in this map; the one in line ${this.#file.place(first.start).line + 1} counts`,
          "error",
          [...this.#path, key].join("."),
        );
        continue;
      }
      seen.set(key, keySpan);
      entries.push({ key, keySpan, value });
    }
    for (const entry of merged) {
      if (seen.has(entry.key)) continue;
      seen.set(entry.key, entry.keySpan);
      entries.push(entry);
    }
    return entries;
  }
}

function isPair(item: unknown): item is Pair {
  return typeof item === "object" && item !== null && "key" in item && "value" in item && !("range" in item);
}

function spanOf(node: Node | null): Span | null {
  const range = node === null ? null : (node as { range?: readonly number[] | null }).range;
  if (range === undefined || range === null) return null;
  return { start: range[0] ?? 0, end: range[1] ?? range[0] ?? 0 };
}
