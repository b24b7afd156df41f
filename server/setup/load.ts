/**
 * One setup file read and built whole, whatever program it is for: its problems do not depend on the program. Kept by
 * text, because a setup is asked for at every keystroke in a program.
 */
import type { UnitSystem } from "../units/quantities.ts";
import type { Building } from "./build/context.ts";
import { buildMachine } from "./build/machine.ts";
import { buildMaterials } from "./build/material.ts";
import { buildTool } from "./build/tool.ts";
import { buildWorkpiece } from "./build/workpiece.ts";
import { mergePractice, PRACTICE_CLASSES, PRACTICE_FAMILIES } from "./practice.ts";
import { Findings } from "./read/findings.ts";
import { read } from "./read/reader.ts";
import type { Source, SourceFile } from "./read/source.ts";
import { readFile } from "./read/table-file.ts";
import { SETUP, type SetupFile, UNITS_KEY } from "./schema/index.ts";
import { MACHINE } from "./schema/machines.ts";
import type { Infer } from "./schema/node.ts";
import { TOOL_TABLE } from "./schema/tools.ts";
import { WORKPIECE } from "./schema/workpieces.ts";
import type { Machine, Origin, Practice, Severity, Tool, WorkMaterial, Workpiece } from "./types.ts";

export interface LoadedTable {
  readonly tools: ReadonlyMap<number, Tool>;
  /** T → why it is no tool to calculate with. */
  readonly broken: ReadonlyMap<number, string>;
}

export interface LoadedSetup {
  readonly file: SourceFile;
  readonly units: UnitSystem;
  readonly programs: NonNullable<SetupFile["programs"]>;
  /** Number of each rule under `programs:` as it is written: rules that could not be read are left out above. */
  readonly ruleNumbers: readonly number[];
  /** Patterns of files that hold called programs. */
  readonly subprograms: readonly string[];
  readonly machines: ReadonlyMap<string, Machine>;
  /** A table, or the file that holds it. */
  readonly tools: ReadonlyMap<string, LoadedTable | string>;
  readonly workpieces: ReadonlyMap<string, Workpiece>;
  readonly materials: readonly WorkMaterial[];
  readonly practice: Practice;
  readonly severity: ReadonlyMap<string, Severity>;
  readonly findings: Findings;
  readonly origins: ReadonlyMap<string, Origin>;
}

/** Keeps the last few results, by key and text. */
class Memory<T> {
  readonly #kept = new Map<string, { readonly texts: readonly unknown[]; readonly value: T }>();
  readonly #size: number;

  constructor(size: number) {
    this.#size = size;
  }

  get(key: string, texts: readonly unknown[], make: () => T): T {
    const kept = this.#kept.get(key);
    if (kept !== undefined && kept.texts.length === texts.length && kept.texts.every((text, i) => text === texts[i]))
      return kept.value;
    const value = make();
    this.#kept.delete(key);
    this.#kept.set(key, { texts, value });
    const oldest = this.#kept.keys().next().value;
    if (this.#kept.size > this.#size && oldest !== undefined) this.#kept.delete(oldest);
    return value;
  }
}

const setups = new Memory<LoadedSetup>(8);

export function loadSetup(uri: string, text: string): LoadedSetup {
  return setups.get(uri, [text], () => load(uri, text));
}

function load(uri: string, text: string): LoadedSetup {
  const { file, root, problems, broken } = readFile(uri, text);
  const findings = new Findings(problems, broken);
  const origins = new Map<string, Origin>();
  const notes = new Map<string, string>();
  const building: Building = { findings, origins, notes };
  const units = unitsOf(root, file);
  const written: SetupFile = root === null || isEmpty(root) ? {} : (read(SETUP, root, "", file, units, findings) ?? {});
  const materials = buildMaterials(written.materials, building);
  const machines = new Map<string, Machine>();
  for (const [name, machine] of written.machines ?? [])
    machines.set(name, buildMachine(name, machine, `machines.${name}`, building));
  const tools = new Map<string, LoadedTable | string>();
  for (const [name, table] of written.tools ?? []) {
    tools.set(name, typeof table === "string" ? table : buildTable(table, `tools.${name}`, materials, building));
  }
  const workpieces = new Map<string, Workpiece>();
  for (const [name, workpiece] of written.workpieces ?? []) {
    workpieces.set(name, buildWorkpiece(name, workpiece, `workpieces.${name}`, materials, units, building));
  }
  const loaded: LoadedSetup = {
    file,
    units: units ?? "mm",
    programs: written.programs ?? [],
    ruleNumbers: ruleNumbers(findings),
    subprograms: written.subprograms ?? [],
    machines,
    tools,
    workpieces,
    materials,
    practice: mergePractice(written.practice),
    severity: written.severity ?? new Map<string, Severity>(),
    findings,
    origins,
  };
  checkReferences(loaded);
  addOrigins(building);
  if (!origins.has("units")) origins.set("units", defaultOrigin("default, mm"));
  for (const name of PRACTICE_CLASSES) {
    for (const family of PRACTICE_FAMILIES) {
      const path = `practice.${name}.${family}`;
      if (!origins.has(path)) origins.set(path, defaultOrigin("default, common practice"));
    }
  }
  return loaded;
}

export const defaultOrigin = (text: string): Origin => ({ kind: "default", file: "", line: -1, column: -1, text });

/** Of materials that no setup declares. */
export const builtInOrigin: Origin = defaultOrigin("built-in table of work materials");

const isEmpty = (root: Source): boolean => root.kind === "scalar" && root.value === null;

/** The file's units before anything else is read, since all bare numbers hang on them. Null: they are broken. */
function unitsOf(root: Source | null, file: SourceFile): UnitSystem | null {
  const written = root?.kind === "map" ? root.entries.find((entry) => entry.key === "units")?.value : undefined;
  if (written === undefined) return "mm";
  // Its problems are said when the whole file is read.
  return read(UNITS_KEY, written, "units", file, "mm", new Findings()) ?? null;
}

function buildTable(
  written: Infer<typeof TOOL_TABLE>,
  path: string,
  materials: readonly WorkMaterial[],
  building: Building,
): LoadedTable {
  const tools = new Map<number, Tool>();
  const broken = new Map<number, string>();
  for (const tool of written) {
    const at = `${path}.T${tool.T}`;
    const built = buildTool(tool, at, materials, building);
    if (built !== null) tools.set(built.T, built);
    else if (tool.T !== undefined) broken.set(tool.T, building.findings.unknown.get(at) ?? "it could not be read");
  }
  return { tools, broken };
}

function ruleNumbers({ places, unknown }: Findings): number[] {
  return [...places.keys()].flatMap((path) => {
    const rule = /^programs\[(\d+)\]$/.exec(path);
    return rule === null || unknown.has(path) ? [] : [Number(rule[1])];
  });
}

/** Names that refer to nothing, in every rule and not only in the one in force. */
function checkReferences(loaded: LoadedSetup): void {
  const { findings } = loaded;
  loaded.programs.forEach((rule, at) => {
    const i = loaded.ruleNumbers[at] ?? at;
    const check = (
      key: "machine" | "tools" | "workpiece",
      declared: ReadonlyMap<string, unknown>,
      section: string,
      noun: string,
    ): void => {
      const name = rule[key];
      if (name === undefined || declared.has(name) || looksLikeFile(name) || findings.unknown.has(`${section}.${name}`))
        return;
      const names =
        declared.size === 0 ? `none is declared under ${section}:` : `declared: ${[...declared.keys()].join(", ")}`;
      const why = `no ${noun} ${name}; ${names}`;
      // Where lines were misread, what they declare is missing: that is one fault, and it has been said.
      if (!findings.malformed) findings.sayAt(`programs[${i}].${key}`, why);
      findings.unknown.set(`programs[${i}].${key}`, why);
    };
    check("machine", loaded.machines, "machines", "machine");
    check("tools", loaded.tools, "tools", "tool table");
    check("workpiece", loaded.workpieces, "workpieces", "workpiece");
  });
}

export function looksLikeFile(name: string): boolean {
  return /[/\\]/.test(name) || /\.(csv|tsv|ya?ml)$/i.test(name);
}

function addOrigins({ findings, origins, notes }: Building): void {
  for (const [path, place] of findings.places) {
    if (origins.has(path) || path === "" || findings.unknown.has(path)) continue;
    const at = place.file.place(place.span.start);
    const note = notes.get(path);
    const text = `${place.file.say(place.span.start)}${note === undefined ? "" : `, ${note}`}`;
    const range = place.file.range(place.file.head(place.span));
    const keyRange = place.file.range(place.keySpan);
    origins.set(path, { kind: "file", file: place.file.uri, line: at.line, column: at.column, range, keyRange, text });
  }
}

export interface LoadedPart<T> {
  readonly value: T | null;
  readonly findings: Findings;
  readonly origins: ReadonlyMap<string, Origin>;
}

const parts = new Memory<LoadedPart<unknown>>(24);

type PartKind = "machine" | "tools" | "workpiece";
type PartValue<K extends PartKind> = K extends "machine" ? Machine : K extends "tools" ? LoadedTable : Workpiece;

/** A machine, tool table or workpiece in a file of its own. The file may name its own `units`. */
export function loadPart<K extends PartKind>(
  kind: K,
  uri: string,
  text: string,
  name: string,
  units: UnitSystem,
  materials: readonly WorkMaterial[],
): LoadedPart<PartValue<K>> {
  return parts.get(`${kind} ${uri} ${name} ${units}`, [text, materials], () =>
    part(kind, uri, text, name, units, materials),
  ) as LoadedPart<PartValue<K>>;
}

function part(
  kind: PartKind,
  uri: string,
  text: string,
  name: string,
  setupUnits: UnitSystem,
  materials: readonly WorkMaterial[],
): LoadedPart<unknown> {
  const { file, root, problems, broken } = readFile(uri, text);
  const findings = new Findings(problems, broken);
  const origins = new Map<string, Origin>();
  const notes = new Map<string, string>();
  const building: Building = { findings, origins, notes };
  const { content, units } = unwrap(root, kind, file, setupUnits);
  let value: unknown = null;
  if (content !== null && !isEmpty(content)) {
    const path = `${kind === "tools" ? "tools" : `${kind}s`}.${name}`;
    if (kind === "tools") {
      const table = read(TOOL_TABLE, content, path, file, units, findings);
      value = table === undefined ? null : buildTable(table, path, materials, building);
    } else if (kind === "machine") {
      const machine = read(MACHINE, content, path, file, units, findings);
      value = machine === undefined ? null : buildMachine(name, machine, path, building);
    } else {
      const workpiece = read(WORKPIECE, content, path, file, units, findings);
      value = workpiece === undefined ? null : buildWorkpiece(name, workpiece, path, materials, units, building);
    }
  } else if (problems.length === 0)
    findings.say(
      file,
      { start: 0, end: 0 },
      "",
      `expected a ${kind === "tools" ? "tool table" : kind}, got an empty file`,
    );
  addOrigins(building);
  return { value, findings, origins };
}

/** A file may hold the thing itself, or `units:` and the thing under its section's name. */
function unwrap(
  root: Source | null,
  kind: PartKind,
  file: SourceFile,
  units: UnitSystem,
): { content: Source | null; units: UnitSystem | null } {
  if (root?.kind !== "map") return { content: root, units };
  const own = root.entries.some((entry) => entry.key === "units") ? unitsOf(root, file) : units;
  const inner = root.entries.find((entry) => entry.key === kind)?.value;
  if (inner !== undefined) return { content: inner, units: own };
  return { content: { ...root, entries: root.entries.filter((entry) => entry.key !== "units") }, units: own };
}
