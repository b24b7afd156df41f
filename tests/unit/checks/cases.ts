/** Programs and what one check must say about them: the words it stands on, and when it must be silent. */
import { COURSE_CASES } from "./cases-course.ts";
import { HOLE_CASES } from "./cases-hole.ts";
import { INHERITED_CASES } from "./cases-inherited.ts";
import { MACHINE_CASES } from "./cases-machine.ts";
import { PART_CASES } from "./cases-part.ts";
import { PITFALL_CASES } from "./cases-pitfalls.ts";
import { PLACE_CASES } from "./cases-places.ts";
import { PROGRAM_CASES } from "./cases-program.ts";
import { READING_CASES } from "./cases-reading.ts";
import { STROKE_CASES } from "./cases-strokes.ts";
import { TOOL_COMMENT_CASES } from "./cases-tool-comment.ts";
import { WAYS_CASES } from "./cases-ways.ts";

export interface Expected {
  readonly severity: "error" | "warning" | "info";
  /** From 1. */
  readonly line: number;
  readonly word: string;
  readonly count?: number;
  /** Parts of the message. */
  readonly says?: readonly string[];
  /** Parts that must not be in it. */
  readonly silentOn?: readonly string[];
  readonly measured?: number;
  readonly limit?: number;
  readonly unit?: string;
}

export interface Case {
  readonly check: string;
  readonly name: string;
  readonly text: string;
  /** Replaces parts of the shop's setup: [from, to]. */
  readonly shop?: readonly (readonly [string, string])[];
  readonly noSetup?: true;
  readonly dialect?: string;
  /** Empty: silent. */
  readonly expect: readonly Expected[];
}

export const CASES: readonly Case[] = [
  ...PROGRAM_CASES,
  ...TOOL_COMMENT_CASES,
  ...MACHINE_CASES,
  ...HOLE_CASES,
  ...STROKE_CASES,
  ...COURSE_CASES,
  ...PLACE_CASES,
  ...PART_CASES,
  ...PITFALL_CASES,
  ...READING_CASES,
  ...INHERITED_CASES,
  ...WAYS_CASES,
];
