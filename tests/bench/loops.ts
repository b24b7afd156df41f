/** How fast a program runs that is short and loops and calls a lot: blocks run, not blocks written, are what counts. */
import { readBlocks } from "../../grammar/read.ts";
import { execute } from "../../server/program/execute.ts";
import { resolveSetup } from "../../server/setup/resolve.ts";
import { LineStore } from "../../server/text/lines.ts";
import { SETUP } from "./setup.ts";
import { median, type Row } from "./table.ts";

const RUNS = 9;
const WARM_UP = 4;
const GOAL_MS = 500;
const FILE = "file:///bench/swarfline.yaml";

const PROGRAM = `O1
G21 G90 G54 G17
T1 M6
G0 X0 Y0 S900 M3
G43 H1 Z50. M8
G99 G81 X0 Y0 Z-5. R2. F90.
#1=0
WHILE[#1LT460]DO1
G90 X0 Y[#1*9.]
M98 P2 L24
#1=#1+1
END1
G80
M30
O2
G91 X9.
#2=#1*2
#3=[#2+1]/2
X9.
IF[#3LT0]GOTO9
X9.
N9 G90
(A ROW OF THREE)
M99
`;

/** One row: the same program whatever the sizes asked for. */
export function benchLoops(): Row[] {
  const program = "file:///bench/loops.nc";
  const { setup } = resolveSetup({ program, setupFile: FILE, sources: new Map([[FILE, SETUP]]) });
  const blocks = readBlocks(LineStore.from(PROGRAM));
  const once = () => {
    const begun = performance.now();
    const made = execute(blocks, setup, { program });
    return { ms: performance.now() - begun, made };
  };
  for (let i = 0; i < WARM_UP; i++) once();
  const runs = Array.from({ length: RUNS }, once);
  const ms = median(runs.map((run) => run.ms));
  const steps = runs[0]?.made.stepCount ?? 0;
  return [
    {
      what: "run through loops and calls, warm",
      size: `${steps}`,
      now: `${ms.toFixed(0)} ms`,
      goal: `${GOAL_MS} ms`,
      beside: `blocks run, ${runs[0]?.made.holeCount ?? 0} holes, ${blocks.count} lines of text`,
      ok: ms <= GOAL_MS,
    },
  ];
}
