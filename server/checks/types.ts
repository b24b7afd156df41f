/** Findings, and what a check is. One check, one file; this is the form they share. */
import type { HoleLoads } from "../loads/types.ts";
import type { Execution, HoleShape, Operation, Span } from "../program/types.ts";
import type { ResolvedSetup, Severity } from "../setup/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import type { Family } from "./family.ts";

export type FindingSeverity = Exclude<Severity, "off">;

/** A place in the program, or (file set) in another file such as the setup. */
export type FindingPlace =
  | { readonly in: "program"; readonly span: Span }
  | {
      readonly in: "file";
      readonly file: string;
      readonly line: number;
      readonly column: number;
      readonly endLine: number;
      readonly endColumn: number;
    };

export interface Finding {
  readonly check: string;
  readonly severity: FindingSeverity;
  readonly place: FindingPlace;
  readonly message: string;
  /** Holes (or blocks) this one cause concerns. */
  readonly count: number;
  readonly related: readonly { readonly place: FindingPlace; readonly message: string }[];
  readonly data: { readonly measured: number | null; readonly limit: number | null; readonly unit: string } | null;
  /** Operation it belongs to; -1 none. */
  readonly operation: number;
  /** Where it stands with the block delete switches in one position only. */
  readonly variant?: "off" | "on";
}

/** Documentation as data: hover, `--help`, web page and SARIF rule text come from here. */
export interface CheckDocs {
  /** One line. */
  readonly title: string;
  readonly what: string;
  readonly why: string;
  readonly formula: string;
  /** Program lines that show it, and better ones. */
  readonly example: string;
  readonly better: string;
  /** What it does not see. */
  readonly limits: string;
  readonly source: string;
}

/** What a check is given. Holes come grouped by shape: a check looks at 3 shapes, not at 10 000 holes. */
export interface CheckContext {
  readonly execution: Execution;
  readonly setup: ResolvedSetup;
  /** The program's own unit system for wording (mm where unknown). */
  readonly system: UnitSystem;
  /** Loads of a shape, computed once. */
  loads(shape: HoleShape): HoleLoads;
  /** Shapes of an operation with counts and a first hole. */
  shapesOf(operation: Operation): Iterable<{
    readonly shape: HoleShape;
    readonly loads: HoleLoads;
    readonly count: number;
    readonly firstBlock: number;
    readonly firstHole: number;
  }>;
  /** Span of a word, or of the block when the word is 0 or gone. */
  spanOf(ref: number, block: number): Span;
  /** Line number as a person counts (from 1) or the N number: `N120` / `line 14`. */
  nameOf(block: number): string;
}

export interface Check {
  readonly id: string;
  /** What the setup turns off together with it: `family:place`. */
  readonly family: Family;
  /** Default; `off`: only where the setup gives it a severity. A check may lower or raise per finding by the levels of shop practice; the setup's severity overrides all. */
  readonly severity: Severity;
  readonly docs: CheckDocs;
  detect(context: CheckContext): Iterable<Finding>;
}
