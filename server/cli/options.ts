/** The options that check, explain and trace share. */
import type { Command } from "commander";
import { readBlocks } from "../../grammar/read.ts";
import { readyDialects } from "../setup/dialects/index.ts";
import { LineStore } from "../text/lines.ts";
import { clean } from "./formats/terminal.ts";
import { type CliIo, UsageError } from "./io.ts";
import { named, shown } from "./paths.ts";

export interface CommonOptions {
  /** Absolute path. */
  readonly setup: string | null;
  readonly dialect: string | null;
  readonly before: string | null;
  readonly from: readonly [number, number, number] | null;
  readonly stdinName: string | null;
  readonly printSetup: boolean;
  /** Which of the two programs to list, where blocks have a block delete. */
  readonly deleteOn: boolean;
}

/** As commander hands them over. */
export interface RawOptions {
  readonly setup?: string;
  readonly dialect?: string;
  readonly before?: string;
  readonly from?: string;
  readonly stdinName?: string;
  readonly printSetup?: boolean;
  readonly delete?: string;
}

export function addCommonOptions(command: Command): Command {
  return command
    .option("--setup <file>", "use this setup instead of the nearest swarfline.yaml")
    .option("--dialect <name>", `read the program as this dialect does (${[...readyDialects.keys()].join(", ")})`)
    .option("--before <words>", "words to execute before the first block, as a start state")
    .option("--from <x,y,z>", "start position in program units; unknown without it")
    .option("--stdin-name <file>", "file name that standard input goes by, to find its setup")
    .option("--print-setup", "print every value in force with its origin, and stop");
}

/** For the commands that list one of the two programs that block deletes make. */
export function addDeleteOption(command: Command): Command {
  return command.option("--delete <switch>", "list the program with its block delete switches on or off", "off");
}

/** @throws {UsageError} */
export function readCommonOptions(raw: RawOptions, io: CliIo): CommonOptions {
  if (raw.dialect !== undefined && !readyDialects.has(raw.dialect)) {
    throw new UsageError(`There is no dialect ${raw.dialect}. Known: ${[...readyDialects.keys()].join(", ")}.`);
  }
  const setup = raw.setup === undefined ? null : named(raw.setup, io);
  if (setup !== null && io.kind(setup) !== "file") {
    const why = io.kind(setup) === "folder" ? "is a folder, not a file" : "is not there";
    throw new UsageError(`The setup ${shown(setup, io)} cannot be read: it ${why}.`);
  }
  return {
    setup,
    dialect: raw.dialect ?? null,
    before: raw.before === undefined ? null : readBefore(raw.before),
    from: raw.from === undefined ? null : readPosition(raw.from),
    stdinName: raw.stdinName ?? null,
    printSetup: raw.printSetup === true,
    deleteOn: raw.delete !== undefined && oneOf("--delete", raw.delete, ["on", "off"]) === "on",
  };
}

/** Words that mean something else than they say would start every program from a state that nobody meant. */
function readBefore(text: string): string {
  const blocks = readBlocks(LineStore.from(text));
  const [first, ...more] = blocks.problems();
  if (first === undefined) return text;
  const column = `column ${first.span.start + 1}`;
  const place = blocks.count > 1 ? `line ${blocks.lineOf(first.span.block) + 1}, ${column}` : column;
  const others = more.length === 0 ? "" : ` (and ${more.length} more)`;
  throw new UsageError(`--before cannot be read, ${place} of "${clean(text)}": ${clean(first.text)}${others}.`);
}

function readPosition(text: string): readonly [number, number, number] {
  const parts = text.split(",").map((part) => part.trim());
  const [x, y, z] = parts.map(Number);
  const good = parts.length === 3 && parts.every((part) => /^[+-]?(\d+\.?\d*|\.\d+)$/.test(part));
  if (!good || x === undefined || y === undefined || z === undefined) {
    throw new UsageError(`--from takes three numbers, as 0,0,50; got ${text}.`);
  }
  return [x, y, z];
}

/** A format or level out of a fixed list. @throws {UsageError} */
export function oneOf<T extends string>(option: string, value: string, known: readonly T[]): T {
  const found = known.find((one) => one === value);
  if (found === undefined) throw new UsageError(`${option} takes ${known.join(", ")}; got ${value}.`);
  return found;
}
