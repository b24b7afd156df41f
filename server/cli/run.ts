/** The command line: options and help. Commands get the outside world as `CliIo`, so that tests run them in process. */
import { Command, CommanderError } from "commander";
import { version } from "../../package.json";
import { CAUTIONS } from "../report/cautions.ts";
import { CHECK_FORMATS, type CheckOptions, check, FAIL_ON } from "./check.ts";
import { checks } from "./checks.ts";
import { EXPLAIN_FORMATS, type ExplainOptions, explain } from "./explain.ts";
import { wrap } from "./formats/terminal.ts";
import { type CliIo, UsageError } from "./io.ts";
import { addCommonOptions, addDeleteOption } from "./options.ts";
import { TRACE_FORMATS, type TraceOptions, trace } from "./trace.ts";

/**
 * Runs one command.
 * @param argv the arguments after the program's own name
 * @returns 0 done and clean, 1 findings at or over --fail-on, 2 wrong use
 * @throws what is a mistake of ours; the edge makes it exit code 3
 */
export async function run(argv: readonly string[], io: CliIo): Promise<number> {
  let code = 0;
  const program = makeProgram(io, (result) => {
    code = result;
  });
  try {
    if (argv.length === 0) {
      program.outputHelp({ error: true });
      return 2;
    }
    await program.parseAsync(argv, { from: "user" });
    return code;
  } catch (error) {
    if (error instanceof CommanderError) return error.exitCode === 0 ? 0 : 2;
    if (error instanceof UsageError) {
      io.err(`swarfline: ${error.message.replaceAll("\n", "\nswarfline: ")}\n`);
      return 2;
    }
    throw error;
  }
}

function makeProgram(io: CliIo, done: (code: number) => void): Command {
  const program = new Command("swarfline")
    .description("Reads drilling programs hole by hole and says whether drill, machine and part can take them.")
    .version(version, "-v, --version", "print the version")
    .helpOption("-h, --help", "print this help")
    .helpCommand("help [command]", "print the help of a command")
    .exitOverride()
    .configureOutput({
      writeOut: (text) => io.out(text),
      writeErr: (text) => io.err(text),
      outputError: (text, write) => write(`swarfline: ${inOneSentence(text)}\n`),
      getOutHelpWidth: () => io.width,
      getErrHelpWidth: () => io.width,
      getOutHasColors: () => io.colours,
      getErrHasColors: () => io.colours,
    })
    .addHelpText("after", () => `\n${exitCodes(io)}\n\n${cautions(io)}`);

  addCommonOptions(
    program
      .command("check")
      .description("say what is wrong or risky in programs")
      .argument("[files...]", "programs, folders or globs; - reads standard input; none: the current folder"),
  )
    .option("--format <name>", `output: ${CHECK_FORMATS.join(", ")}`, "text")
    .option("--fail-on <level>", `lowest severity that gives exit code 1: ${FAIL_ON.join(", ")}`, "error")
    .addHelpText("after", () => `\n${exitCodes(io)}\n\n${cautions(io)}`)
    .action(async (files: string[], options: CheckOptions) => done(await check(files, options, io)));

  addDeleteOption(
    addCommonOptions(
      program
        .command("explain")
        .description("print the holes of a program with loads, limits and, for one line, the arithmetic")
        .argument("<file[:line]>", "a program, or one line of it; - reads standard input"),
    ),
  )
    .option("--format <name>", `output: ${EXPLAIN_FORMATS.join(", ")}`, "text")
    .option("--step <mm>", "engagement samples at multiples of this below the start of the feed (json)")
    .option(
      "--svg <file>",
      "write the interrupted cut as a picture, of several holes the hardest; replaces only an SVG",
    )
    .addHelpText("after", () => `\n${counting(io)}\n\n${cautions(io)}`)
    .action(async (target: string, options: ExplainOptions) => done(await explain(target, options, io)));

  addDeleteOption(
    addCommonOptions(
      program
        .command("trace")
        .description("print every motion the machine will make, cycles motion by motion")
        .argument("<file>", "a program; - reads standard input"),
    ),
  )
    .option("--format <name>", `output: ${TRACE_FORMATS.join(", ")}`, "text")
    .addHelpText("after", () => `\n${cautions(io)}`)
    .action(async (file: string, options: TraceOptions) => done(await trace(file, options, io)));

  program
    .command("checks")
    .description("list the checks, or print what one of them checks, why, and by which formula")
    .argument("[id]", "a check, as spindle-power")
    .action((id: string | undefined) => done(checks(id, io)));

  return program;
}

/** The parser's complaint about the arguments, as all other messages: one sentence, without quotes round words. */
function inOneSentence(text: string): string {
  const said = text
    .trim()
    .replace(/^error: /, "")
    .replace(/\n\(Did you mean (.*?)\?\)$/, ". Did you mean $1?")
    .replace(/^unknown (command|option) '(.*?)'/, "There is no $1 $2")
    .replace(/^missing required argument '(.*?)'/, "Expected $1, got nothing")
    .replace(/^option '(.*?)' argument missing/, "Expected a value after $1, got none")
    .replace(
      /^too many arguments for '(.*?)'\. Expected (\d+) arguments? but got (\d+)/,
      "$1 takes $2 argument, got $3",
    );
  return /[.?!]$/.test(said) ? said : `${said}.`;
}

function exitCodes(io: CliIo): string {
  const lines = [
    "0  done and clean",
    "1  findings at or over --fail-on (check only)",
    "2  wrong use, nothing matched, or a --setup that cannot be read",
    "3  an internal error",
  ];
  return ["Exit codes:", ...lines.flatMap((line) => wrap(line, io.width - 2).map((one) => `  ${one}`))].join("\n");
}

function counting(io: CliIo): string {
  const text =
    "Operations count from 1 in the text, as `observed:` in the setup takes them. In JSON `index` and `operation` of a hole count from 0; lines and columns count from 1 everywhere.";
  return ["Counting:", ...wrap(text, io.width - 2).map((line) => `  ${line}`)].join("\n");
}

function cautions(io: CliIo): string {
  const lines = CAUTIONS.flatMap((line) => wrap(line, io.width - 2).map((one) => `  ${one}`));
  return ["What it does not do:", ...lines].join("\n");
}
