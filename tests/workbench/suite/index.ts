/** Runs inside the extension host of a real editor. Prints one line a test and leaves the totals in a file. */
import { writeFileSync } from "node:fs";
import { tests } from "./tests.ts";

export async function run(): Promise<void> {
  let passed = 0;
  const failures: string[] = [];
  for (const [name, test] of tests) {
    try {
      await test();
      passed++;
      console.log(`ok   ${name}`);
    } catch (error) {
      failures.push(`${name}: ${error instanceof Error ? error.message : String(error)}`);
      console.log(`FAIL ${name}: ${error instanceof Error ? (error.stack ?? error.message) : String(error)}`);
    }
  }
  const result = process.env.SWARFLINE_WORKBENCH_RESULT;
  if (result !== undefined) writeFileSync(result, JSON.stringify({ passed, failed: failures.length, failures }));
  if (failures.length > 0) throw new Error(failures.join("\n"));
}
