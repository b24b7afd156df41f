/** Forms of blocks, comments and numbers that some controls do not have. */
import { ITEM } from "../../grammar/blocks.ts";
import type { Run } from "./run.ts";
import { L } from "./words.ts";

export function deleteRules(run: Run): boolean {
  const { words, blocks, dialect } = run;
  const single = blocks.end(words.deleteItem) - blocks.start(words.deleteItem) === 1;
  if (dialect.blockDelete === "any-position") {
    if (single) return false;
    const text =
      "block delete has one switch in this dialect: the digit after / is not read as one. Way out: a single /";
    run.remark("block-delete", "warning", words.deleteItem, text);
    return false;
  }
  if (single && words.deleteItem === words.first) return false;
  const text = "block delete is a single / at the start of the line in this dialect. Way out: put it there";
  run.remark("block-delete", "error", words.deleteItem, text);
  return true;
}

export function bracketComment(run: Run): boolean {
  const { words, blocks } = run;
  for (let item = words.first; item < words.first + words.count; item++) {
    if (blocks.kind(item) !== ITEM.comment) continue;
    const text = "( ) makes no comment in this dialect. Way out: ; before it, or `parenComments: true` in the setup";
    run.remark("bracket-comment", "error", item, text);
    return true;
  }
  return false;
}

/** G10 of a form that the control does not have sets nothing. */
export function offsetForm(run: Run): boolean {
  const { words, dialect } = run;
  if (!words.has(L) || Number.isNaN(words.get(L))) return false;
  const form = `L${words.get(L)}`;
  if ([...dialect.g10Forms].some((known) => known === form)) return false;
  const strict = dialect.unknownCode === "error";
  const forms = [...dialect.g10Forms].join(", ");
  const text = `G10 ${form} is no form of this dialect: nothing is set. Way out: one of ${forms}, or \`g10Forms\` in the setup`;
  run.remark("g10-l", strict ? "error" : "warning", words.itemOf(L), text);
  return true;
}

/** Digits of a program number. */
export function programDigits(run: Run): void {
  const { words, dialect, blocks } = run;
  const item = words.programItem;
  const written = blocks
    .textOf(words.block)
    .slice(blocks.start(item) + 1, blocks.end(item))
    .replace(/\s/g, "");
  if (!/^\d+$/.test(written) || written.length <= dialect.oDigits) return;
  const text = `the program number has ${written.length} digits: this dialect takes ${dialect.oDigits}. Way out: a shorter number, or \`oDigits\` in the setup`;
  run.remark("program-digits", "warning", item, text);
}
