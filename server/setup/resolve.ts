/** The setup in force for one program. Synchronous, reads no file, never throws. */

import { DEFAULT_DIALECT, readyDialect, withCoolant } from "./build/dialect.ts";
import type { Dialect } from "./dialect.ts";
import { genericMill } from "./dialects/index.ts";
import { matches } from "./glob.ts";
import {
  builtInOrigin,
  defaultOrigin,
  type LoadedPart,
  type LoadedSetup,
  type LoadedTable,
  loadPart,
  loadSetup,
  looksLikeFile,
} from "./load.ts";
import { findMaterial } from "./materials/find.ts";
import { findSource, relativeTo, resolveBeside } from "./paths.ts";
import { defaultPractice } from "./practice.ts";
import type { Machine, Origin, ResolvedSetup, SetupProblem, Sources, Tool, WorkMaterial, Workpiece } from "./types.ts";
import { type InUse, weighed } from "./used.ts";

export interface ResolveInput {
  /** Uri or path of the program. */
  readonly program: string;
  /** Uri or path of the setup in force; null: none. */
  readonly setupFile: string | null;
  readonly sources: Sources;
  /** `--dialect`: replaces the dialect only. */
  readonly dialect?: string;
}

export interface Resolution {
  readonly setup: ResolvedSetup;
  /** Files that the setup needs and that are not in the sources. */
  readonly missing: readonly string[];
}

/** A resolution with all that it was made from. */
interface Kept {
  readonly loaded: LoadedSetup;
  /** Files besides the setup, with their texts; null: not given. */
  readonly files: ReadonlyMap<string, string | null>;
  readonly resolution: Resolution;
}

const MAX_KEPT = 32;
const kept = new Map<string, Kept>();

/**
 * The setup in force for one program. Unchanged texts give the same object again.
 * A file that is missing is said as a problem too: when the edge can give it, the next resolution is without it.
 */
export function resolveSetup(input: ResolveInput): Resolution {
  const { setupFile, program, dialect } = input;
  const found = setupFile === null ? null : findSource(input.sources, setupFile);
  if (setupFile === null || found === null) {
    return { setup: withoutSetup(input), missing: setupFile === null ? [] : [setupFile] };
  }
  const loaded = loadSetup(setupFile, found.text);
  const key = JSON.stringify([setupFile, program, dialect ?? null]);
  const before = kept.get(key);
  if (before !== undefined && before.loaded === loaded && unchanged(before.files, input.sources))
    return before.resolution;
  const draft = new Draft(input, loaded);
  const resolution = draft.resolve();
  kept.delete(key);
  kept.set(key, { loaded, files: draft.files, resolution });
  const oldest = kept.keys().next().value;
  if (kept.size > MAX_KEPT && oldest !== undefined) kept.delete(oldest);
  return resolution;
}

function unchanged(files: ReadonlyMap<string, string | null>, sources: Sources): boolean {
  for (const [uri, text] of files) if ((findSource(sources, uri)?.text ?? null) !== text) return false;
  return true;
}

function withoutSetup(input: ResolveInput): ResolvedSetup {
  const problems: SetupProblem[] = [];
  const origins = new Map<string, Origin>();
  const unknown = new Map<string, string>();
  return {
    file: input.setupFile,
    units: "mm",
    machine: null,
    dialect: chooseDialect(null, input, problems, origins, unknown),
    tools: new Map(),
    hasToolTable: false,
    workpiece: null,
    material: null,
    materials: [],
    severity: new Map(),
    practice: defaultPractice,
    origins,
    problems,
    unknown,
  };
}

function chooseDialect(
  machine: Machine | null,
  input: ResolveInput,
  problems: SetupProblem[],
  origins: Map<string, Origin>,
  unknown: Map<string, string>,
): Dialect {
  if (input.dialect !== undefined) {
    const ready = readyDialect(input.dialect);
    if (typeof ready !== "string") {
      origins.set("dialect", {
        kind: "option",
        file: "",
        line: -1,
        column: -1,
        text: `option --dialect ${input.dialect}`,
      });
      return withCoolant(ready, machine?.coolant ?? new Map());
    }
    problems.push({
      file: input.program,
      severity: "error",
      range: { line: 0, column: 0, endLine: 0, endColumn: 0 },
      message: `option --dialect: ${ready}`,
    });
    unknown.set("dialect", ready);
  }
  if (machine === null) {
    origins.set("dialect", defaultOrigin(`default, ${DEFAULT_DIALECT}`));
    return genericMill;
  }
  origins.set("dialect", origins.get(`${machine.path}.dialect`) ?? defaultOrigin(`default, ${DEFAULT_DIALECT}`));
  return machine.dialect;
}

/** One resolution on its way. */
class Draft {
  readonly #input: ResolveInput;
  readonly #loaded: LoadedSetup;
  /** Files asked for besides the setup, with their texts. */
  readonly files = new Map<string, string | null>();
  #problems: SetupProblem[];
  readonly #origins: Map<string, Origin>;
  readonly #unknown: Map<string, string>;
  readonly #missing: string[] = [];

  constructor(input: ResolveInput, loaded: LoadedSetup) {
    this.#input = input;
    this.#loaded = loaded;
    this.#problems = [...loaded.findings.problems];
    this.#origins = new Map(loaded.origins);
    this.#unknown = new Map(loaded.findings.unknown);
  }

  resolve(): Resolution {
    const loaded = this.#loaded;
    const at = relativeTo(loaded.file.uri, this.#input.program);
    const found = loaded.programs.findIndex(
      (rule) => rule.files?.some((pattern) => matches(pattern, at.path, at.ignoreCase)) === true,
    );
    const rule = loaded.programs[found];
    const index = loaded.ruleNumbers[found] ?? found;
    for (const part of ["machine", "tools", "workpiece"] as const) {
      if (rule === undefined) this.#unknown.set(part, `no rule under programs: is for ${at.path}`);
      else if (rule[part] === undefined) this.#unknown.set(part, `programs[${index}] names none`);
    }
    const machine = this.#named("machine", rule?.machine, index, loaded.machines);
    const table = this.#table(rule?.tools, index);
    const workpiece = this.#named("workpiece", rule?.workpiece, index, loaded.workpieces);
    const material = this.#material(workpiece);
    const own = material !== null && loaded.materials.some((each) => each.path === material.path);
    const use: InUse = {
      rule: index,
      machine: rule?.machine,
      tools: rule?.tools,
      workpiece: rule?.workpiece,
      // A material of the shop's own may be like another one.
      materials: own ? null : [workpiece?.materialKey ?? ""],
    };
    this.#problems = this.#problems.map((problem) => weighed(problem, use));
    // What is for this program names it from here on by its path, where the file may have a pattern.
    const program = at.path.replace(/^(\.\.\/)+/, "");
    const ofProgram = (pattern: string): boolean => matches(pattern, at.path, at.ignoreCase);
    const setup: ResolvedSetup = {
      file: loaded.file.uri,
      units: loaded.units,
      machine,
      dialect: chooseDialect(machine, this.#input, this.#problems, this.#origins, this.#unknown),
      tools: table === null ? new Map() : withReadings(table.tools, ofProgram, program),
      hasToolTable: table !== null,
      brokenTools: table?.broken ?? new Map(),
      workpiece:
        workpiece === null
          ? null
          : {
              ...workpiece,
              entries: workpiece.entries
                .filter((entry) => ofProgram(entry.program))
                .map((entry) => ({ ...entry, program })),
            },
      material,
      materials: loaded.materials,
      subprograms: loaded.subprograms,
      severity: loaded.severity,
      practice: loaded.practice,
      origins: this.#origins,
      problems: this.#problems,
      unknown: this.#unknown,
    };
    return { setup, missing: this.#missing };
  }

  #named<K extends "machine" | "workpiece">(
    kind: K,
    name: string | undefined,
    rule: number,
    declared: ReadonlyMap<string, K extends "machine" ? Machine : Workpiece>,
  ): (K extends "machine" ? Machine : Workpiece) | null {
    if (name === undefined) return null;
    const here = declared.get(name);
    if (here !== undefined) return here;
    if (!looksLikeFile(name)) return null;
    return this.#fromFile(kind, name, name, `programs[${rule}].${kind}`) as
      | (K extends "machine" ? Machine : Workpiece)
      | null;
  }

  #table(name: string | undefined, rule: number): LoadedTable | null {
    if (name === undefined) return null;
    const here = this.#loaded.tools.get(name);
    if (typeof here === "object") return here;
    if (here !== undefined) return this.#fromFile("tools", name, here, `tools.${name}`);
    return looksLikeFile(name) ? this.#fromFile("tools", name, name, `programs[${rule}].tools`) : null;
  }

  #fromFile<K extends "machine" | "tools" | "workpiece">(
    kind: K,
    name: string,
    file: string,
    path: string,
  ): LoadedPart<K extends "machine" ? Machine : K extends "tools" ? LoadedTable : Workpiece>["value"] {
    const uri = resolveBeside(this.#loaded.file.uri, file);
    const found = findSource(this.#input.sources, uri);
    this.files.set(uri, found?.text ?? null);
    if (found === null) {
      const place = this.#loaded.findings.placeOf(path);
      const message = `${path}: ${file} cannot be read: it is looked for beside this setup file`;
      const range =
        place === null ? { line: 0, column: 0, endLine: 0, endColumn: 0 } : this.#loaded.file.range(place.span);
      this.#problems.push({ file: this.#loaded.file.uri, severity: "error", range, message });
      this.#unknown.set(path, message);
      if (!this.#missing.includes(uri)) this.#missing.push(uri);
      return null;
    }
    const part = loadPart(kind, found.uri, found.text, name, this.#loaded.units, this.#loaded.materials);
    this.#problems.push(...part.findings.problems);
    for (const [key, origin] of part.origins) this.#origins.set(key, origin);
    for (const [key, why] of part.findings.unknown) this.#unknown.set(key, why);
    return part.value;
  }

  #material(workpiece: Workpiece | null): WorkMaterial | null {
    if (workpiece === null || workpiece.materialKey === null) return null;
    const found = findMaterial(workpiece.materialKey, this.#loaded.materials);
    if (found === null) return null;
    if (!this.#origins.has(found.path)) {
      this.#origins.set(found.path, builtInOrigin);
    }
    if (workpiece.hardnessHB === null) return found;
    const measured = this.#origins.get(`${workpiece.path}.hardness`);
    if (measured !== undefined) this.#origins.set(`${found.path}.hardnessHB`, measured);
    return { ...found, hardnessHB: workpiece.hardnessHB };
  }
}

/** Load-meter readings belong to one program each. */
function withReadings(
  tools: ReadonlyMap<number, Tool>,
  ofProgram: (pattern: string) => boolean,
  program: string,
): ReadonlyMap<number, Tool> {
  const result = new Map<number, Tool>();
  for (const [t, tool] of tools) {
    const observed = tool.observed.filter((reading) => ofProgram(reading.program));
    result.set(t, tool.observed.length === 0 ? tool : { ...tool, observed: observed.map((o) => ({ ...o, program })) });
  }
  return result;
}
