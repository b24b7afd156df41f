/** Every check, in one place. The order is that of the documentation: reading, program, machine, drill, cautions. */
import { axisThrust } from "./axis-thrust.ts";
import { cannotCheck } from "./cannot-check.ts";
import { combustibleChips } from "./combustible-chips.ts";
import { coolantLate } from "./coolant-late.ts";
import { coolantSupply } from "./coolant-supply.ts";
import { cutNote } from "./cut-note.ts";
import { cycleDataInherited } from "./cycle-data-inherited.ts";
import { cycleDepthOrder } from "./cycle-depth-order.ts";
import { cycleWordMissing } from "./cycle-word-missing.ts";
import { dialectRule } from "./dialect-rule.ts";
import { dwellLong } from "./dwell-long.ts";
import { entryLost } from "./entry-lost.ts";
import { entryNotAllowed } from "./entry-not-allowed.ts";
import { feedLimit } from "./feed-limit.ts";
import { feedMode } from "./feed-mode.ts";
import { feedWindow } from "./feed-window.ts";
import { flowStructure } from "./flow-structure.ts";
import { freedDisc } from "./freed-disc.ts";
import { internal } from "./internal.ts";
import { interruptedFeed } from "./interrupted-feed.ts";
import { lengthOffset } from "./length-offset.ts";
import { mainReturn } from "./main-return.ts";
import { modalLeak } from "./modal-leak.ts";
import { noFeed } from "./no-feed.ts";
import { notAMachiningProgram } from "./not-a-machining-program.ts";
import { notExecuted } from "./not-executed.ts";
import { peckStyle } from "./peck-style.ts";
import { programEnd } from "./program-end.ts";
import { rPlaneLow } from "./r-plane-low.ts";
import { rapidIntoMetal } from "./rapid-into-metal.ts";
import { reach } from "./reach.ts";
import { rpmLimit } from "./rpm-limit.ts";
import { runLimit } from "./run-limit.ts";
import { setupCheck } from "./setup.ts";
import { sidewaysInMetal } from "./sideways-in-metal.ts";
import { spindlePower } from "./spindle-power.ts";
import { spindleState } from "./spindle-state.ts";
import { spindleTorque } from "./spindle-torque.ts";
import { spotAngle } from "./spot-angle.ts";
import { subprogram } from "./subprogram.ts";
import { syntax } from "./syntax.ts";
import { throughCoolant } from "./through-coolant.ts";
import { throughDepth } from "./through-depth.ts";
import { toolChange } from "./tool-change.ts";
import { toolCommentDiffers } from "./tool-comment.ts";
import type { Check } from "./types.ts";
import { unknownBranch } from "./unknown-branch.ts";
import { unknownCode } from "./unknown-code.ts";
import { unknownTool } from "./unknown-tool.ts";
import { unreadableFile } from "./unreadable-file.ts";
import { vcWindow } from "./vc-window.ts";
import { walk } from "./walk.ts";

export const CHECKS: readonly Check[] = [
  unreadableFile,
  syntax,
  notAMachiningProgram,
  dialectRule,
  unknownCode,
  notExecuted,
  subprogram,
  flowStructure,
  unknownBranch,
  runLimit,
  modalLeak,
  mainReturn,
  programEnd,
  cutNote,
  setupCheck,
  entryLost,
  unknownTool,
  toolCommentDiffers,
  toolChange,
  lengthOffset,
  cycleWordMissing,
  cycleDepthOrder,
  cycleDataInherited,
  rPlaneLow,
  rapidIntoMetal,
  sidewaysInMetal,
  spindleState,
  noFeed,
  feedMode,
  rpmLimit,
  feedLimit,
  spindlePower,
  spindleTorque,
  axisThrust,
  vcWindow,
  feedWindow,
  interruptedFeed,
  entryNotAllowed,
  walk,
  coolantLate,
  throughCoolant,
  coolantSupply,
  reach,
  throughDepth,
  peckStyle,
  spotAngle,
  dwellLong,
  freedDisc,
  combustibleChips,
  cannotCheck,
  internal,
];

const BY_ID: ReadonlyMap<string, Check> = new Map(CHECKS.map((check) => [check.id, check]));

/** The check of this id; undefined where there is none. */
export function checkById(id: string): Check | undefined {
  return BY_ID.get(id);
}
