/** The place where the rooms meet: setup, execution, loads and checks of one program. Synchronous, no I/O, never throws. */
import { internalFinding } from "../checks/internal.ts";
import { capped } from "../checks/more-findings.ts";
import { inOrder, runChecks } from "../checks/run.ts";
import type { Finding } from "../checks/types.ts";
import { createLoads } from "../loads/loads.ts";
import { arranged } from "../loads/surroundings/arrange.ts";
import type { HoleLoads } from "../loads/types.ts";
import { execute } from "../program/execute.ts";
import type { LibraryFile } from "../program/library.ts";
import type { ExecuteOptions, Execution, HoleShape } from "../program/types.ts";
import { resolveSetup } from "../setup/resolve.ts";
import type { ResolvedSetup } from "../setup/types.ts";
import { emptyExecution, unknownLoads } from "./empty.ts";
import { libraryFor } from "./library.ts";
import { withNoteMaterial } from "./note-material.ts";
import type { Review, ReviewInput, ReviewProgram } from "./types.ts";
import { bothVariants } from "./variants.ts";

/** Setup as it was resolved for a review, before a note's material went into it. */
const resolved = new WeakMap<Review, ResolvedSetup>();

/** Called programs of a review that stand in files of their own. */
const libraries = new WeakMap<Review, readonly LibraryFile[]>();

/** The execution with block deletes off, which the next review goes on from. */
const bases = new WeakMap<Review, Execution>();

/**
 * Reviews one program.
 * @returns findings in order of place; `missing` names files to fetch before the setup is whole. A part that fails
 *   through a fault of ours gives one finding that says so and leaves the others working.
 */
export const review: ReviewProgram = (input) => {
  const faults: Finding[] = [];
  const first = input.blocks.blockAt(0);
  const fault: Fault = (what, rest) => {
    if (!faults.some((f) => f.message.startsWith(what))) faults.push(internalFinding(what, first, rest));
  };
  const { setup: base, missing } = setupFor(input, fault);
  const { execution: off, library, missing: programs } = executedFor(input, base, fault);
  const on = deletedFor(off, input, base, library);
  const run = input.deleteOn === true && on !== null ? on : off;
  const { setup, findings: aboutMaterial } = guard(
    () => withNoteMaterial(run, base),
    () => ({ setup: base, findings: [] }),
    () => fault("The note that names the material"),
  );
  const inPart = (of: Execution): Execution =>
    guard(
      () => arranged(of, setup),
      () => of,
      () => fault("Working out the metal around the holes"),
    );
  const [partOff, partOn] = [inPart(off), on === null ? null : inPart(on)];
  const execution = run === on && partOn !== null ? partOn : partOff;
  const loads = guardedLoads(execution, setup, input.program, fault);
  const check = (of: Execution): Finding[] =>
    guard(
      () =>
        runChecks(of, setup, of === execution ? loads : guardedLoads(of, setup, input.program, fault), aboutMaterial),
      () => [],
      () => fault("Checking", "Nothing in it was checked."),
    );
  const checked = partOn === null ? check(partOff) : inOrder(bothVariants(check(partOff), check(partOn)), off);
  const quiet = base.severity.get("internal") === "off";
  // Without the review before: a chain of them would keep every version of the program alive.
  const { previous: _, ...own } = input;
  const made: Review = {
    input: own,
    setup,
    execution,
    findings: capped(quiet ? checked : [...faults, ...checked], first),
    loads,
    missing: [...missing, ...programs],
  };
  libraries.set(made, library);
  resolved.set(made, base);
  bases.set(made, off);
  return made;
};

/** Notes a fault of ours; `rest` says what still holds. */
type Fault = (what: string, rest?: string) => void;

function guard<T>(work: () => T, otherwise: () => T, failed: () => void): T {
  try {
    return work();
  } catch {
    failed();
    return otherwise();
  }
}

function setupFor(input: ReviewInput, fault: Fault): { setup: ResolvedSetup; missing: readonly string[] } {
  const { program, setupFile, sources, dialect } = input;
  const asked = { program, sources, ...(dialect === undefined ? {} : { dialect }) };
  return guard(
    () => resolveSetup({ ...asked, setupFile }),
    () => resolveSetup({ program, sources: new Map(), setupFile: null }),
    () => fault("Reading the setup"),
  );
}

interface Executed {
  readonly execution: Execution;
  readonly library: readonly LibraryFile[];
  readonly missing: readonly string[];
}

/** Executes, and again with each called program that the sources hold, until none is wanted that can be had. */
function executedFor(input: ReviewInput, setup: ResolvedSetup, fault: Fault): Executed {
  const { sources, previous } = input;
  const before = previous === undefined ? [] : (libraries.get(previous) ?? []);
  let { files } = libraryFor(
    before.map(({ number }) => number),
    setup,
    sources,
    [],
  );
  for (;;) {
    const execution = executionFor(input, setup, files, fault);
    const found = libraryFor(execution.wanted, setup, sources, files);
    if (found.files.length === files.length) return { execution, library: files, missing: found.missing };
    files = found.files;
  }
}

/** Replays the execution of the review before where blocks, setup and start are still the same objects. */
function executionFor(
  input: ReviewInput,
  setup: ResolvedSetup,
  library: readonly LibraryFile[],
  fault: Fault,
): Execution {
  const { blocks, previous } = input;
  const options = { ...startOf(input), library };
  const last = previous === undefined || !continues(previous, input, setup) ? undefined : bases.get(previous);
  const plain = (): Execution =>
    guard(
      () => execute(blocks, setup, options),
      () => emptyExecution(blocks, setup),
      () => fault("Executing the program", "Nothing in it was checked."),
    );
  if (last === undefined) return plain();
  // A fault in the replay must not be carried on from keystroke to keystroke.
  return guard(
    () => execute(blocks, setup, { ...options, previous: last }),
    plain,
    () => undefined,
  );
}

function startOf({ program, before, from }: ReviewInput): ExecuteOptions {
  return { program, ...(before === undefined ? {} : { before }), ...(from === undefined ? {} : { from }) };
}

function continues(previous: Review, input: ReviewInput, setup: ResolvedSetup): boolean {
  const old = previous.input;
  return (
    old.blocks === input.blocks &&
    old.program === input.program &&
    old.before === input.before &&
    old.from?.join() === input.from?.join() &&
    resolved.get(previous) === setup
  );
}

/** The other program, where blocks have a block delete: only what differs is run again. */
function deletedFor(
  off: Execution,
  input: ReviewInput,
  setup: ResolvedSetup,
  library: readonly LibraryFile[],
): Execution | null {
  if (!off.skips) return null;
  return guard(
    () => execute(input.blocks, setup, { ...startOf(input), library, deleteOn: true, previous: off }),
    () => null,
    () => undefined,
  );
}

function guardedLoads(
  execution: Execution,
  setup: ResolvedSetup,
  program: string,
  fault: Fault,
): (shape: HoleShape) => HoleLoads {
  const failed = new WeakMap<HoleShape, HoleLoads>();
  const make = guard(
    () => createLoads(execution, setup, { program }),
    () => null,
    () => fault("Working out loads"),
  );
  return (shape) => {
    const known = failed.get(shape);
    if (known !== undefined) return known;
    try {
      if (make !== null) return make(shape);
    } catch {
      fault("Working out the loads of a hole");
    }
    const none = unknownLoads(shape, "a fault in Swarfline");
    failed.set(shape, none);
    return none;
  };
}
