/** `swarfline trace FILE`: every motion the machine will make, one by one. */
import { toJson } from "./formats/json.ts";
import { traceHead, traceLine } from "./formats/trace-text.ts";
import { oneInput } from "./inputs.ts";
import { type CliIo, UsageError } from "./io.ts";
import { Loader } from "./load.ts";
import { publicMotions } from "./motion.ts";
import { oneOf, type RawOptions, readCommonOptions } from "./options.ts";
import { shown } from "./paths.ts";
import { printSetups } from "./print-setup.ts";
import { placeFindings } from "./public.ts";

export const TRACE_FORMATS = ["text", "json"] as const;

export interface TraceOptions extends RawOptions {
  readonly format: string;
}

export async function trace(file: string, raw: TraceOptions, io: CliIo): Promise<number> {
  const format = oneOf("--format", raw.format, TRACE_FORMATS);
  const options = readCommonOptions(raw, io);
  const input = oneInput(file, io, options.stdinName);
  const loaded = await new Loader(options, io).load(input);
  if ("refused" in loaded) throw new UsageError(`${input.shown}:1:1: ${loaded.refused}`);
  if (options.printSetup) {
    printSetups([loaded], format, io);
    return 0;
  }
  const motions = publicMotions(loaded.review, input.shown, (file) => shown(file, io));
  if (format === "json") {
    // One motion a line and written as it is made: a trace is long.
    io.out(`{\n  "schema": 1,\n  "program": ${JSON.stringify(input.shown)},\n  "motions": [`);
    let separator = "\n";
    for (const motion of motions) {
      io.out(`${separator}    ${JSON.stringify(motion)}`);
      separator = ",\n";
    }
    const findings = placeFindings(loaded, io).map((placed) => placed.finding);
    io.out(`\n  ],\n  "findings": ${toJson(findings).trimEnd().replaceAll("\n", "\n  ")}\n}\n`);
    return 0;
  }
  io.out(`${traceHead(input.shown, loaded.review, io)}\n`);
  let some = false;
  for (const motion of motions) {
    some = true;
    io.out(`${traceLine(motion, input.shown)}\n`);
  }
  if (!some) io.out("No motion: no block of the program moves the machine.\n");
  return 0;
}
