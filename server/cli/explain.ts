/** `swarfline explain FILE[:LINE]`: every hole with its loads, limits and, for one line, the whole arithmetic. */
import type { Hole, HoleShape } from "../program/types.ts";
import type { Review } from "../review/types.ts";
import { explainText, type Group } from "./formats/explain-text.ts";
import { toJson } from "./formats/json.ts";
import { publicHole } from "./hole.ts";
import { oneInput, splitLine } from "./inputs.ts";
import { type CliIo, UsageError } from "./io.ts";
import { Loader } from "./load.ts";
import { oneOf, type RawOptions, readCommonOptions } from "./options.ts";
import { shown } from "./paths.ts";
import { printSetups } from "./print-setup.ts";
import { placeFindings } from "./public.ts";
import { svgTarget, writeSvg } from "./svg-file.ts";

export const EXPLAIN_FORMATS = ["text", "json"] as const;

export interface ExplainOptions extends RawOptions {
  readonly format: string;
  readonly step?: string;
  readonly svg?: string;
}

/** mm: finer samples are more than anybody reads, and a deep hole has millions of them. */
const LEAST_STEP = 0.001;

export async function explain(target: string, raw: ExplainOptions, io: CliIo): Promise<number> {
  const format = oneOf("--format", raw.format, EXPLAIN_FORMATS);
  const step = raw.step === undefined ? null : Number(raw.step);
  if (step !== null && !(step >= LEAST_STEP))
    throw new UsageError(`--step takes a length in mm, ${LEAST_STEP} or more; got ${raw.step}.`);
  if (step !== null && format !== "json")
    throw new UsageError("--step sets samples, which --format json shows: add it.");
  const options = readCommonOptions(raw, io);
  const svg = raw.svg === undefined ? null : svgTarget(raw.svg, io);
  if (svg !== null && options.printSetup)
    throw new UsageError("--print-setup prints the setup and stops: leave out --svg.");
  const { file, line } = splitLine(target, io);
  const input = oneInput(file, io, options.stdinName);
  const loaded = await new Loader(options, io).load(input);
  if ("refused" in loaded) throw new UsageError(`${input.shown}:1:1: ${loaded.refused}`);
  if (options.printSetup) {
    printSetups([loaded], format, io);
    return 0;
  }
  const { review, lines } = loaded;
  if (line !== null && (line < 1 || line > lines.count)) {
    throw new UsageError(`${input.shown} has ${lines.count} lines; there is no line ${line}.`);
  }
  const holes = holesOf(review, line);
  const asked = line === null ? input.shown : `${input.shown}:${line}`;
  const written = svg === null ? "" : `${writeSvg(svg, input.shown, asked, holes, review, io)}\n`;
  if (format === "text") {
    io.out(explainText(input.shown, groupsOf(holes, review), review, line, io));
    io.out(written);
    return 0;
  }
  // Standard output is the json alone.
  if (written !== "") io.err(written);
  const { setup } = review;
  const findings = placeFindings(loaded, io).map((placed) => placed.finding);
  io.out(
    toJson({
      schema: 1,
      program: input.shown,
      units: review.execution.units,
      setup: {
        file: setup.file === null ? null : shown(setup.file, io),
        // The name alone: what a machine changes of it stands in its setup.
        dialect: setup.dialect.name.replace(/, changed$/, ""),
        machine: setup.machine?.name ?? null,
        material: setup.material?.key ?? null,
      },
      variant: options.deleteOn ? "delete-on" : "delete-off",
      holes: holes.map((hole) =>
        publicHole(hole, review, { program: input.shown, step, show: (file) => shown(file, io) }),
      ),
      findings: line === null ? findings : findings.filter((one) => one.file === input.shown && one.line === line),
    }),
  );
  return 0;
}

/** The holes that a line makes; where it makes none, those that its words rule or that a call on it leads to. */
function holesOf(review: Review, line: number | null): Hole[] {
  const { execution } = review;
  const all = Array.from({ length: execution.holeCount }, (_, index) => index);
  if (line === null) return all.map((index) => execution.hole(index));
  const block = execution.blocks.blockAt(line - 1);
  const made = Array.from(execution.holesOfBlock(block));
  if (made.length > 0) return made.map((index) => execution.hole(index));
  const ruled = new Set(execution.shapes.filter((shape) => isRuledBy(shape, block)).map((shape) => shape.id));
  return all
    .map((index) => execution.hole(index))
    .filter((hole) => ruled.has(hole.shape.id) || hole.calls.includes(block));
}

function isRuledBy(shape: HoleShape, block: number): boolean {
  const refs = [
    ...Object.values(shape.state.from),
    ...Object.values(shape.refs),
    ...shape.strokes.map((stroke) => stroke.fRef),
  ];
  // A reference is block id × 1024 + item (grammar/blocks.ts); 0 is none.
  return refs.some((ref) => ref !== 0 && Math.floor(ref / 1024) === block);
}

function groupsOf(holes: readonly Hole[], review: Review): Group[] {
  const groups = new Map<number, { shape: HoleShape; holes: Hole[] }>();
  for (const hole of holes) {
    const group = groups.get(hole.shape.id);
    if (group === undefined) groups.set(hole.shape.id, { shape: hole.shape, holes: [hole] });
    else group.holes.push(hole);
  }
  return [...groups.values()].flatMap((group) => {
    const operation = review.execution.operations[group.shape.operation];
    return operation === undefined ? [] : [{ ...group, operation }];
  });
}
