import { courseOf } from "./course.ts";
import { counted, single } from "./one-place.ts";
import type { Check, CheckContext, Finding } from "./types.ts";

export const pointWhereWhole: Check = {
  id: "point-where-whole",
  family: "reading",
  severity: "warning",
  docs: {
    title: "A fraction where the control reads whole numbers",
    what: "T, H, D or L with a fraction, and a dwell P with a decimal point where the dialect reads it in milliseconds.",
    why: "The control stops, cuts the fraction off, or reads another number: P0.5 is half a millisecond or half a second.",
    formula: "",
    example: "T3.5 M6",
    better: "T3 M6",
    limits:
      "P in seconds is silent, and so is P where the dialect leaves its unit open: that is told once by `dialect-rule`. Values from expressions are not looked at.",
    source: "common practice, no source",
  },
  *detect(context) {
    yield* counted(found(context));
  },
};

function* found(context: CheckContext): Generator<readonly [string, Finding]> {
  const { execution, setup } = context;
  // The strict dialect refuses these itself.
  const strict = setup.dialect.repeatWord === "error";
  const ms = setup.dialect.dwellP === "ms";
  if (strict) return;
  for (const { block, letter, value, start, end } of courseOf(context).points) {
    const whole = Math.abs(value - Math.round(value)) < 1e-9;
    const dwell = letter === "P" && ms && dwells(context, block);
    if (!dwell && (letter === "P" || whole || calls(context, block))) continue;
    const span = { block, start, end };
    const written = execution.blocks.textOf(block).slice(start, end);
    const message = dwell
      ? `${written} has a decimal point, and this dialect reads a dwell in whole milliseconds (\`dwellP\`): ${value} ms as it stands. Way out: P${Math.round(value * 1000)} if ${value} s is meant.`
      : `${written} is a fraction where the control reads a whole number. Way out: ${letter}${Math.trunc(value)}, or the number that is meant.`;
    yield [written, single("point-where-whole", "warning", { in: "program", span }, message)];
  }
}

function codes(context: CheckContext, block: number): number[] {
  const { blocks } = context.execution;
  const first = blocks.firstItem(block);
  const found: number[] = [];
  for (let item = first; item < first + blocks.itemCount(block); item++)
    if (blocks.kind(item) === 71) found.push(Math.round(blocks.value(item) * 10));
  return found;
}

const dwells = (context: CheckContext, block: number): boolean =>
  codes(context, block).some((code) => code === 40 || context.setup.dialect.cycles.get(code) === "dwell-drill");

/** Letters of a macro call are arguments. */
const calls = (context: CheckContext, block: number): boolean =>
  codes(context, block).some((code) => code >= 650 && code <= 670);
