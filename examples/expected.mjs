// The findings marked in a program: `(EXPECT SPINDLE-POWER ERROR)` on a line of its own stands for one finding of that
// check and severity on the next line that is no such mark.
import { readFileSync } from "node:fs";

const MARK = /^\s*\(EXPECT ([A-Z-]+) (ERROR|WARNING|INFO)\)\s*$/;

/** @returns {{ check: string, severity: string, line: number }[]} */
export function expectedFindings(file) {
  const expected = [];
  let waiting = [];
  readFileSync(file, "latin1")
    .split(/\r\n|\r|\n/)
    .forEach((text, index) => {
      const mark = MARK.exec(text);
      if (mark !== null) {
        waiting.push({ check: mark[1].toLowerCase(), severity: mark[2].toLowerCase() });
        return;
      }
      for (const one of waiting) expected.push({ ...one, line: index + 1 });
      waiting = [];
    });
  return expected;
}

/** What is missing and what is too much, as sentences; empty when the findings are exactly the expected ones. */
export function unlike(expected, findings) {
  const key = (f) => `${f.check} (${f.severity}) at line ${f.line}`;
  const found = findings.map(key);
  const lines = [];
  for (const want of expected.map(key)) {
    const at = found.indexOf(want);
    if (at < 0) lines.push(`expected ${want}, not found`);
    else found.splice(at, 1);
  }
  for (const extra of found) lines.push(`found ${extra}, not marked`);
  return lines;
}
