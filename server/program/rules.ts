/**
 * What a dialect refuses in the words of one block, before anything of it runs. In the NIST language such a block is an
 * error and is not run; other controls take the last of two and go on.
 */

import type { Codes } from "./block-codes.ts";
import { GROUP, GROUP_NAMES, gName, M_GROUP, mGroup } from "./codes.ts";
import { bracketComment, deleteRules, offsetForm } from "./form-rules.ts";
import { machineLimits } from "./machine-limits.ts";
import type { Run } from "./run.ts";
import { UNSURE, unsure } from "./unsure.ts";
import { A, B, bit, C, D, F, H, I, IJK, J, K, L, letterName, N, P, Q, R, S, T, XYZ } from "./words.ts";

/** Letters that must not be negative in either dialect. */
const NOT_NEGATIVE = bit(D) | bit(F) | bit(H) | bit(L) | bit(P) | bit(S) | bit(T);
const WHOLE = bit(D) | bit(H) | bit(L) | bit(N) | bit(T);

const forbiddenMasks = new Map<string, number>();

function forbidden(letters: string): number {
  let mask = forbiddenMasks.get(letters);
  if (mask === undefined) {
    mask = 0;
    for (const c of letters.toUpperCase()) mask |= 1 << (c.charCodeAt(0) - 65);
    forbiddenMasks.set(letters, mask);
  }
  return mask;
}

/** @returns true when the block must not run */
export function refuses(run: Run, codes: Codes): boolean {
  const { words, dialect, blocks } = run;
  const strict = dialect.repeatWord === "error";
  const level = strict ? "error" : "warning";
  // What could not be read has a syntax finding of its own; the NIST language does not run such a line.
  let refused = strict && (words.unread || words.valueless || words.fault);

  const bad = words.mask & forbidden(dialect.forbiddenLetters);
  if (bad !== 0) {
    for (let letter = 0; letter < 26; letter++)
      if ((bad & (1 << letter)) !== 0)
        run.remark(
          "letter",
          "error",
          words.itemOf(letter),
          `${letterName(letter)} is no address of this dialect. Way out: leave the word out, or declare the control's own dialect`,
        );
    refused = true;
  }
  if (words.repeated !== 0) {
    for (let letter = 0; letter < 26; letter++) {
      if ((words.repeated & (1 << letter)) === 0) continue;
      const text = `${letterName(letter)} stands more than once in the block${strict ? "" : ": the last one is taken"}. Way out: keep one`;
      run.remark("repeated-word", level, words.itemOf(letter), text);
    }
    refused ||= strict;
  }
  if (words.lineComment >= 0 && !dialect.semicolonComments) {
    run.remark("semicolon", "error", words.lineComment, "; begins no comment in this dialect. Way out: ( ) around it");
    refused = true;
  }
  if (words.comments && !dialect.parenComments) refused = bracketComment(run) || refused;
  if (words.deleteItem >= 0 && dialect.blockDelete !== "numbered") refused = deleteRules(run) || refused;
  if (codes.once === 100) refused = offsetForm(run) || refused;
  machineLimits(run, codes);
  if (words.has(N)) refused = numberRules(run) || refused;
  if ((words.mask & NOT_NEGATIVE) !== 0) refused = signRules(run) || refused;
  if ((words.mask & WHOLE) !== 0 && strict) refused = wholeRules(run) || refused;
  if (words.gCount > 1) refused = groupRules(run, strict) || refused;
  if (words.mCount > 1) refused = mRules(run, strict) || refused;
  if (dialect.unusedWords === "error" && (words.mask & USED) !== 0) refused = unusedRules(run, codes) || refused;
  if (words.count > 0 && blocks.end(words.first + words.count - 1) > dialect.lineLength) {
    const text = `the line has more than ${dialect.lineLength} characters. Way out: two blocks`;
    run.remark("line-length", level, words.first + words.count - 1, text);
    refused ||= strict;
  }
  return refused;
}

function numberRules(run: Run): boolean {
  const { words, dialect, blocks } = run;
  const item = words.itemOf(N);
  const value = words.get(N);
  const strict = dialect.repeatWord === "error";
  if (value < 0 || !Number.isInteger(value)) {
    run.remark(
      "line-number",
      strict ? "error" : "warning",
      item,
      "a line number is a whole number without a sign. Way out: N and digits only",
    );
    return strict;
  }
  // Leading zeros count: the limit is on digits. White space inside a number does not.
  const written = blocks.end(item) - blocks.start(item) - 1;
  if (written <= dialect.nDigits) return false;
  const digits = run.blocks
    .textOf(words.block)
    .slice(blocks.start(item) + 1, blocks.end(item))
    .replace(/\s/g, "").length;
  if (digits <= dialect.nDigits) return false;
  const text = `N has ${digits} digits: this dialect takes ${dialect.nDigits}. Way out: shorter numbers`;
  run.remark("line-number", strict ? "error" : "warning", item, text);
  return strict;
}

function signRules(run: Run): boolean {
  const { words } = run;
  let refused = false;
  for (let letter = 0; letter < 26; letter++) {
    if ((words.mask & NOT_NEGATIVE & (1 << letter)) === 0 || !(words.get(letter) < 0)) continue;
    // A negative peck, dwell or repeat of a cycle is the cycle's own business where the dialect goes on.
    run.remark(
      "negative",
      "error",
      words.itemOf(letter),
      `${letterName(letter)} must not be negative. Way out: leave out the sign`,
    );
    words.drop(letter);
    refused = true;
  }
  return refused && run.dialect.repeatWord === "error";
}

function wholeRules(run: Run): boolean {
  const { words } = run;
  let refused = false;
  for (let letter = 0; letter < 26; letter++) {
    if ((words.mask & WHOLE & (1 << letter)) === 0 || letter === N) continue;
    const value = words.get(letter);
    if (Number.isNaN(value) || Math.abs(value - Math.round(value)) <= 1e-4) continue;
    run.remark(
      "whole",
      "error",
      words.itemOf(letter),
      `${letterName(letter)} needs a whole number. Way out: leave out the fraction`,
    );
    refused = true;
  }
  return refused;
}

function groupRules(run: Run, strict: boolean): boolean {
  const { words } = run;
  const table = run.codes.groups;
  let seen = 0;
  let refused = false;
  for (let i = 0; i < words.gCount; i++) {
    const code = words.g[i] ?? -1;
    let group = code < 0 ? 0 : (table[code] ?? 0);
    if (group === GROUP.unknown) continue;
    if (group === GROUP.once && !strict) continue;
    // One group for motion and cycles, where the dialect keeps them together.
    if (group === GROUP.cycle && !run.dialect.cycleGroupSeparate) group = GROUP.motion;
    if ((seen & (1 << group)) === 0) {
      seen |= 1 << group;
      continue;
    }
    const item = words.gItem[i] ?? words.first;
    const name = group === GROUP.once ? "one-block codes" : (GROUP_NAMES[group] ?? "");
    const text = strict
      ? `${gName(code)} is the second code of one group (${name}) in the block. Way out: keep one, or a block for each`
      : `two codes of one group (${name}) in the block: ${gName(code)} is taken, being the last. Way out: keep one`;
    run.remark("same-group", strict ? "error" : "warning", item, text);
    refused ||= strict;
  }
  return refused;
}

function mRules(run: Run, strict: boolean): boolean {
  const { words, dialect } = run;
  let seen = 0;
  let refused = false;
  for (let i = 0; i < words.mCount; i++) {
    const code = words.m[i] ?? -1;
    const group = code < 0 ? M_GROUP.other : mGroup(code);
    if (group === M_GROUP.other) continue;
    if ((seen & (1 << group)) === 0) {
      seen |= 1 << group;
      continue;
    }
    const text = strict
      ? `M${code} is the second code of its group in the block. Way out: keep one, or a block for each`
      : `two M codes of one kind in the block: M${code} is taken, being the last. Way out: keep one`;
    // M7 and M8 may be on together; other controls take both from one block.
    if (!strict && group === M_GROUP.coolant) continue;
    run.remark("same-m-group", strict ? "error" : "warning", words.mItem[i] ?? words.first, text);
    refused ||= strict;
  }
  if (words.mCount > dialect.maxMPerBlock) {
    const text = `${words.mCount} M codes in one block: this dialect takes ${dialect.maxMPerBlock}. Way out: a further block`;
    run.remark("m-count", strict ? "error" : "warning", words.mItem[dialect.maxMPerBlock] ?? words.first, text);
    refused ||= strict;
  }
  return refused;
}

const USED = bit(D) | bit(H) | IJK | bit(L) | bit(P) | bit(Q) | bit(R) | XYZ | bit(A) | bit(B) | bit(C);

/** The words that nothing on the line uses, as the reference interpreter finds them. */
function unusedRules(run: Run, codes: Codes): boolean {
  const { words, row } = run;
  const arcNow = codes.motion === 20 || codes.motion === 30;
  const otherNow = codes.motion >= 0 || codes.cycle >= 0;
  const cycle = codes.cycle > 0 && codes.cycle !== 800 ? codes.cycle : otherNow ? 0 : row.cycle;
  const arc = arcNow || (!otherNow && row.cycle === 0 && (row.motion === 2 || row.motion === 3));
  const g10 = codes.once === 100;
  const withP = g10 || codes.g4 || cycle === 820 || cycle === 860 || cycle === 880 || cycle === 890;
  let unused = 0;
  if (codes.comp !== 41 && codes.comp !== 42) unused |= bit(D);
  if (codes.tlo !== 43) unused |= bit(H);
  if (!arc && cycle !== 870) unused |= bit(I) | bit(J) | bit(K);
  if (cycle === 0 && !g10) unused |= bit(L);
  if (!withP) unused |= bit(P);
  if (cycle !== 830) unused |= bit(Q);
  if (!arc && cycle === 0) unused |= bit(R);
  unused &= words.mask;
  // A cycle or an arc that may be in force may use them.
  if (!otherNow && unsure(row, UNSURE.cycle | UNSURE.motion)) unused = 0;
  let refused = false;
  for (let letter = 0; unused !== 0 && letter < 26; letter++) {
    if ((unused & (1 << letter)) === 0) continue;
    unused &= ~(1 << letter);
    const item = words.itemOf(letter);
    run.remark(
      "unused-word",
      "error",
      item,
      `${letterName(letter)} is used by nothing in the block. Way out: leave the word out, or write the code that needs it`,
    );
    refused = true;
  }
  const axes = (words.mask & XYZ) !== 0;
  const onceUsesAxes = codes.once === 100 || codes.once === 280 || codes.once === 300 || codes.once === 920;
  if (onceUsesAxes && (codes.motion >= 0 || codes.cycle > 800)) {
    run.remark(
      "two-axis-codes",
      "error",
      words.first,
      "two codes of the block use its axis words. Way out: a block for each",
    );
    refused = true;
  }
  if (axes && codes.cycle === 800 && !onceUsesAxes) {
    run.remark(
      "axes-with-g80",
      "error",
      words.first,
      "G80 takes no axis words. Way out: the move in the next block, with G0",
    );
    refused = true;
  }
  if (axes && !otherNow && !onceUsesAxes && row.cycle === 0 && row.motion < 0 && row.unsure === 0) {
    run.remark(
      "axes-without-code",
      "error",
      words.first,
      "axis words, but no code that moves is in force. Way out: G0 or G1 before them",
    );
    refused = true;
  }
  return refused;
}
