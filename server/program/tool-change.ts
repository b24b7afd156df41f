/** T and M6: what is staged, loaded, and what a tool change does besides. */
import type { WordRef } from "../../grammar/blocks.ts";
import { applyLength } from "./places.ts";
import type { Run } from "./run.ts";
import { leftInForce } from "./transform-codes.ts";
import { splitTool } from "./turning.ts";
import { doubt, settled, UNSURE, unsure } from "./unsure.ts";
import { T } from "./words.ts";

/** T and M6. @param change M6 stands in the block */
export function toolWords(run: Run, change: boolean): void {
  const { words, row, dialect } = run;
  const given = words.has(T);
  const value = words.get(T);
  if (dialect.toolLoadedBy === "T") {
    if (given) turret(run, value);
    return;
  }
  const later = change && dialect.tM6SameBlock === "loads-previous";
  if (given && !later) stage(run, value, run.refOf(T));
  if (change) {
    const item = words.mItemOf(6);
    if (!run.staged)
      run.say("tool-change", "no-t", item, {
        text: "M6 has no T before it: the tool it loads is not known",
        level: "warning",
      });
    if (row.cycle !== 0) changeInCycle(run, item);
    loadTool(run, item);
  }
  if (given && later) stage(run, value, run.refOf(T));
}

function changeInCycle(run: Run, item: number): void {
  run.say("tool-change", "in-cycle", item, {
    text: "the tool is changed while a cycle is active: the next position would drill with the new tool; end the cycle with G80 first",
    level: "warning",
  });
}

/** T of a turret: it brings the tool into work, and with it the offset in its last two digits. */
function turret(run: Run, value: number): void {
  const { words, row, dialect } = run;
  const item = words.itemOf(T);
  const both = dialect.toolWord === "tool-offset";
  const [tool, offset] = Number.isNaN(value) ? [-2, -1] : both ? splitTool(run, value, item) : [Math.round(value), -1];
  if (tool !== -1 && tool !== row.tool) {
    stage(run, tool < 0 ? Number.NaN : tool, run.refOf(T));
    if (row.cycle !== 0) changeInCycle(run, item);
    loadTool(run, item);
  }
  run.lengthOwed = false;
  if (offset < 0) return;
  run.from("lengthOffset", item);
  const h = offset === 0 ? Number.NaN : offset;
  if (row.tlo === (offset === 0 ? 49 : 43) && Object.is(row.h, h) && tool === -1) return;
  row.tlo = offset === 0 ? 49 : 43;
  row.h = h;
  run.dirty = true;
  run.cycle.version++;
  // How far the offsets of two tools lie apart is known to the machine only.
  run.record?.longHand.commit(run);
  for (const axis of [0, 2] as const) {
    run.pos[axis] = Number.NaN;
    run.why[axis] = "the offset of the tool is not known to the program";
  }
  if (offset === 0 || tool <= 0 || dialect.hEqualsT === "off") return;
  const allowed = run.record?.operations.lengthOffsetsOf(tool) ?? [];
  if (allowed.length > 0 ? allowed.includes(offset) : offset === tool) return;
  const two = (n: number): string => String(n).padStart(2, "0");
  const text =
    `T${two(tool)}${two(offset)} brings tool ${tool} with offset ${offset}. ` +
    `Way out: T${two(tool)}${two(tool)}, or \`H: ${offset}\` at tool ${tool} in the setup when it is meant so`;
  run.remark("tool-offset", dialect.hEqualsT === "required" ? "error" : "warning", item, text);
}

function stage(run: Run, value: number, ref: WordRef): void {
  const { toolCount } = run.dialect;
  if (toolCount !== null && value > toolCount) {
    const text = `T${value}: this machine has ${toolCount} places for tools. Way out: a number up to ${toolCount}, or \`toolCount\` in the setup`;
    run.remark("tool-count", "error", run.words.itemOf(T), text);
  }
  run.staged = true;
  run.stagedRef = ref;
  settled(run, UNSURE.staged);
  const next = Number.isNaN(value) ? -1 : Math.round(value);
  if (run.row.staged === next) return;
  run.row.staged = next;
  run.dirty = true;
}

function loadTool(run: Run, item: number): void {
  const { row, dialect } = run;
  row.tool = row.staged === 0 ? -1 : row.staged;
  if (unsure(row, UNSURE.staged)) doubt(row, UNSURE.tool, row.unsureWhy);
  else settled(run, UNSURE.tool);
  if (dialect.m6StopsSpindle) settled(run, UNSURE.spindle);
  if (dialect.m6StopsCoolant) settled(run, UNSURE.coolant);
  if (dialect.m6CancelsTlo) settled(run, UNSURE.lengthOffset);
  if (run.stagedRef !== 0) run.fromRef("tool", run.stagedRef);
  else run.from("tool", item);
  if (dialect.m6StopsSpindle && row.spindle !== 0) {
    row.spindle = 0;
    run.from("spindle", item);
  }
  if (dialect.m6StopsCoolant && row.coolant !== "") {
    row.coolant = "";
    run.from("coolant", item);
  }
  if (dialect.m6CancelsTlo && row.tlo !== 49) {
    row.tlo = 49;
    row.h = Number.NaN;
    applyLength(run, 0);
  }
  run.lengthOwed = row.tool >= 0;
  run.rigid = false;
  run.dirty = true;
  run.cycle.version++;
  const { record } = run;
  if (record !== null) {
    record.longHand.commit(run);
    record.operations.begin(row.tool, run.words.block, record.holes.count);
    if (row.coolant === "") record.operations.coolantOff();
    record.noted.runEnds();
    leftInForce(run, item, "the tool change");
  }
  if (dialect.m6RetractsZ) {
    run.pos[2] = Number.NaN;
    run.why[2] = "the tool change moved Z";
  }
  run.emit("tool", run.machine?.toolChange ?? Number.NaN);
}
