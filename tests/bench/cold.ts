import { spawnSync } from "node:child_process";
import { mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { makeMixedProgram } from "./mixed.ts";
import { SETUP } from "./setup.ts";
import { median, type Row } from "./table.ts";

const cli = join(import.meta.dirname, "..", "..", "dist", "cli.js");

/** The command line in a fresh process: start, read, review, print. */
export function benchCold(sizes: readonly number[]): Row[] {
  const folder = mkdtempSync(join(tmpdir(), "swarfline-bench-"));
  try {
    writeFileSync(join(folder, "swarfline.yaml"), SETUP);
    return sizes.map((size) => {
      const file = join(folder, `mixed-${size}.nc`);
      writeFileSync(file, makeMixedProgram(size));
      const times: number[] = [];
      for (let i = 0; i < 5; i++) {
        const start = performance.now();
        const run = spawnSync(process.execPath, [cli, "check", "--format", "json", file], { maxBuffer: 1 << 30 });
        times.push(performance.now() - start);
        if (run.status === null || run.status > 1) throw new Error(`check ended with ${run.status}: ${run.stderr}`);
      }
      const bare: number[] = [];
      for (let i = 0; i < 5; i++) {
        const start = performance.now();
        spawnSync(process.execPath, ["-e", "0"]);
        bare.push(performance.now() - start);
      }
      const ms = median(times);
      return {
        what: "check, cold process",
        size: `${size}`,
        now: `${ms.toFixed(0)} ms`,
        goal: size === 100_000 ? "2500 ms" : "",
        beside: `a Node that does nothing: ${median(bare).toFixed(0)} ms`,
        ok: size < 100_000 || ms <= 2500,
      };
    });
  } finally {
    rmSync(folder, { recursive: true, force: true });
  }
}
