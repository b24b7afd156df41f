// `npm run bench`: one table of what is fast and what is held, each figure beside an anchor measured in the same run.
// `npm run bench -- 10000` measures at that size only.
import { benchCold } from "./cold.ts";
import { benchKernel } from "./kernel.ts";
import { benchKeystroke } from "./keystroke.ts";
import { benchLoops } from "./loops.ts";
import { benchParse } from "./parse.ts";
import { benchPlates } from "./plates.ts";
import { benchReview } from "./review.ts";
import { printTable, type Row } from "./table.ts";

const asked = process.argv.slice(2).map(Number).filter(Number.isInteger);
const sizes = asked.length > 0 ? asked : [1_000, 10_000, 100_000];

const rows: Row[] = [];
rows.push(...benchParse(sizes));
rows.push(...benchReview(sizes));
rows.push(...benchLoops());
rows.push(...benchKernel());
rows.push(...benchPlates());
rows.push(...benchCold(sizes));
rows.push(...(await benchKeystroke(sizes)));
console.log(`\nNode ${process.version}, ${process.arch}; shared machine: compare within a run, not across runs.\n`);
console.log(printTable(rows));
process.exit(rows.every((row) => row.ok) ? 0 : 1);
