/** Codes of the machine's builder that the setup names: known, and told once in its words unless it says `ignore`. */
import { gName } from "./codes.ts";
import type { Run } from "./run.ts";

/**
 * @param code G × 10, or M
 * @returns whether it does something that is not followed
 */
export function customCode(run: Run, letter: "G" | "M", code: number, item: number): boolean {
  const { customG, customM } = run.dialect;
  const what = (letter === "G" ? customG : customM).get(code) ?? "ignore";
  if (what === "ignore") return false;
  const name = letter === "G" ? gName(code) : `M${code}`;
  run.remark("custom-code", "info", item, `${name}: ${what}, as the setup says. What it does is not followed`, 1);
  return true;
}
