import type { LiveBlocks } from "../../grammar/blocks.ts";
import type { Finding } from "../checks/types.ts";
import type { HoleLoads } from "../loads/types.ts";
import type { Execution, HoleShape } from "../program/types.ts";
import type { ResolvedSetup, Sources } from "../setup/types.ts";
import type { LineStore } from "../text/lines.ts";

export interface ReviewInput {
  /** Uri or path of the program. */
  readonly program: string;
  readonly lines: LineStore;
  readonly blocks: LiveBlocks;
  /** Setup files and tool tables by uri/path. */
  readonly sources: Sources;
  /** Uri/path of the setup in force; null: none. The edge finds it. */
  readonly setupFile: string | null;
  readonly dialect?: string;
  readonly before?: string;
  readonly from?: readonly [number, number, number];
  /** Which of the two programs `execution` is, where blocks have a block delete. Findings are of both. */
  readonly deleteOn?: boolean;
  readonly previous?: Review;
}

export interface Review {
  readonly input: ReviewInput;
  readonly setup: ResolvedSetup;
  readonly execution: Execution;
  readonly findings: readonly Finding[];
  loads(shape: HoleShape): HoleLoads;
  /** Files that are needed and not in `sources`: the edge fetches them and calls again. */
  readonly missing: readonly string[];
}

/** Synchronous, no I/O, never throws. */
export type ReviewProgram = (input: ReviewInput) => Review;
