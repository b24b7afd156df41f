/** `trace --format text`: one motion a line, positions in the program's own units. */
import type { Review } from "../../review/types.ts";
import type { CliIo } from "../io.ts";
import type { PublicMotion } from "../motion.ts";
import { saySetup } from "../result.ts";
import { clean, wrap } from "./terminal.ts";
import { colours } from "./text.ts";

const HEAD = ["line", "motion", "X", "Y", "Z", "F", "n", "s", "coolant", "called from"] as const;
const WIDTHS = [6, 8, 10, 10, 10, 9, 7, 8, 10, 0];

/** Columns are of fixed width, so that a long trace can be printed as it is made. */
export function traceHead(program: string, review: Review, io: CliIo): string {
  const colour = colours(io);
  const { units } = review.execution;
  const of =
    units === null ? "in the units of the program, which declares none" : units === "mm" ? "in mm" : "in inches";
  return [
    `${colour.bold(colour.underline(clean(program)))}  ${units === null ? "units not declared" : `${units} program`}`,
    ...wrap(clean(saySetup(review.setup, io)), io.width).map(colour.dim),
    ...wrap(
      `X, Y, Z where the motion ends, ${of}; F as programmed; n in 1/min; s in seconds; ? is not known`,
      io.width,
    ),
    "",
    row([...HEAD]),
  ].join("\n");
}

/** @param program the file that the trace is of: lines in it need no name */
export function traceLine(motion: PublicMotion, program: string): string {
  const places = motion.units === "inch" ? 4 : 3;
  const number = (value: number | null, digits: number) => (value === null ? "?" : value.toFixed(digits));
  return row([
    String(motion.line),
    motion.kind,
    number(motion.x, places),
    number(motion.y, places),
    number(motion.z, places),
    // A feed of 0.0024 in/rev and one of 2000 mm/min: as many digits as the number itself has.
    motion.f === null ? "?" : String(Number(motion.f.toPrecision(6))),
    number(motion.n, 0),
    number(motion.seconds, 2),
    motion.coolant.join(" "),
    [calledFrom(motion, program), motion.file === program ? "" : `(line of ${clean(motion.file)})`]
      .filter((part) => part !== "")
      .join("  "),
  ]);
}

/** Outermost call first. */
function calledFrom({ calls }: PublicMotion, program: string): string {
  return calls.map(({ file, line }) => (file === program ? line : `${clean(file)}:${line}`)).join(" > ");
}

function row(cells: readonly string[]): string {
  return cells
    .map((cell, i) => (i === 1 || i >= 8 ? cell.padEnd(WIDTHS[i] ?? 0) : cell.padStart(WIDTHS[i] ?? 0)))
    .join("  ")
    .trimEnd();
}
