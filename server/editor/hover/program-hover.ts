/** The hover of a program: finds the word under the mouse and hands it to the one that knows it. */
import { ITEM, VALUE } from "../../../grammar/blocks.ts";
import { turns } from "../../setup/dialect.ts";
import type { Review } from "../model.ts";
import { hoverCoolant } from "./coolant.ts";
import { hoverCycle } from "./cycle.ts";
import { hoverDwell, hoverPeck } from "./cycle-word.ts";
import { hoverDepth } from "./depth.ts";
import { hoverFeed } from "./feed.ts";
import { hoverComment } from "./note.ts";
import { hoverPosition } from "./position.ts";
import { hoverSpeed } from "./speed.ts";
import type { Target } from "./target.ts";
import { hoverTool } from "./tool.ts";

export interface ProgramHover {
  readonly markdown: string;
  /** The word. */
  readonly line: number;
  readonly start: number;
  readonly end: number;
}

/** @param line, column from 0; anything is allowed, outside the text there is no hover */
export function hoverProgram(review: Review, line: number, column: number): ProgramHover | null {
  const { blocks } = review.input;
  if (!(line >= 0 && line < blocks.count && column >= 0)) return null;
  const block = blocks.blockAt(line);
  const item = itemAt(review, block, column);
  if (item === null) return null;
  const start = blocks.start(item);
  const end = blocks.end(item);
  const system = review.execution.units ?? "mm";
  const kind = blocks.kind(item);
  let markdown: string | null = null;
  if (kind === ITEM.comment || kind === ITEM.lineComment) {
    markdown = hoverComment(review, system, { block, start, end });
  } else if (kind >= 65 && kind <= 90) {
    const plainNumber = blocks.form(item) === VALUE.integer || blocks.form(item) === VALUE.real;
    const number = blocks.value(item);
    markdown = hoverWord({
      review,
      system,
      block,
      item,
      ref: blocks.refOf(block, item),
      letter: String.fromCharCode(kind),
      value: plainNumber && Number.isFinite(number) ? number : null,
      text: blocks.textOf(block).slice(start, end),
    });
  }
  return markdown === null || markdown === "" ? null : { markdown, line, start, end };
}

/** The item that holds the column; between two items that touch, the one that begins there. */
function itemAt(review: Review, block: number, column: number): number | null {
  const { blocks } = review.input;
  const first = blocks.firstItem(block);
  let touching: number | null = null;
  for (let item = first; item < first + blocks.itemCount(block); item++) {
    if (column >= blocks.start(item) && column < blocks.end(item)) return item;
    if (column === blocks.end(item)) touching = item;
  }
  return touching;
}

function hoverWord(target: Target): string | null {
  const { letter, value, review } = target;
  switch (letter) {
    case "S":
      return hoverSpeed(target);
    case "F":
      return hoverFeed(target);
    case "T":
      return hoverTool(target);
    case "R":
      return hoverDepth(target);
    case "Q":
      return hoverPeck(target);
    case "P":
      return hoverDwell(target);
    case "M":
      return hoverCoolant(target);
    case "G":
      return value !== null && review.setup.dialect.cycles.has(Math.round(value * 10)) ? hoverCycle(target) : null;
    case "X":
    case "Y":
    case "Z":
      return letter === drillAxis(target) ? hoverDepth(target) : hoverPosition(target);
    case "C":
    case "H":
    case "U":
    case "W":
      return turns(review.setup.dialect) ? hoverPosition(target) : null;
    default:
      return null;
  }
}

/** The axis that the block drills along: Z unless its holes or its plane say otherwise. */
function drillAxis({ review, block }: Target): string {
  const { execution } = review;
  const first = execution.holesOfBlock(block)[0];
  if (first !== undefined) return execution.hole(first).shape.axis.toUpperCase();
  if (turns(execution.setup.dialect)) return "Z";
  const step = execution.stepOf(block);
  if (step < 0) return "Z";
  const { plane } = execution.stepState(step);
  return plane === 19 ? "X" : plane === 18 ? "Y" : "Z";
}
