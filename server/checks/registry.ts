/** Every check, in one place. The order is that of the documentation: reading, program, machine, drill, cautions. */
import { axisThrust } from "./axis-thrust.ts";
import { cannotCheck } from "./cannot-check.ts";
import { centreInsertFree } from "./centre-insert-free.ts";
import { combustibleChips } from "./combustible-chips.ts";
import { coolantAtChange } from "./coolant-at-change.ts";
import { coolantAtStop } from "./coolant-at-stop.ts";
import { coolantLate } from "./coolant-late.ts";
import { coolantSupply } from "./coolant-supply.ts";
import { cutNote } from "./cut-note.ts";
import { cycleAtHome } from "./cycle-at-home.ts";
import { cycleDataInherited } from "./cycle-data-inherited.ts";
import { cycleDepthOrder } from "./cycle-depth-order.ts";
import { cycleLeftActive } from "./cycle-left-active.ts";
import { cyclePlane } from "./cycle-plane.ts";
import { cycleWordMissing } from "./cycle-word-missing.ts";
import { diagonalApproach } from "./diagonal-approach.ts";
import { dialectRule } from "./dialect-rule.ts";
import { dwellLong } from "./dwell-long.ts";
import { endRunning } from "./end-running.ts";
import { endState } from "./end-state.ts";
import { entryAdvice } from "./entry-advice.ts";
import { entryContradicts } from "./entry-contradicts.ts";
import { entryLost } from "./entry-lost.ts";
import { entryNotAllowed } from "./entry-not-allowed.ts";
import { feedLimit } from "./feed-limit.ts";
import { feedMode } from "./feed-mode.ts";
import { feedModeOpen } from "./feed-mode-open.ts";
import { feedStaysLow } from "./feed-stays-low.ts";
import { feedWindow } from "./feed-window.ts";
import { flowStructure } from "./flow-structure.ts";
import { freedDisc } from "./freed-disc.ts";
import { g91LeftActive } from "./g91-left-active.ts";
import { holeInAir } from "./hole-in-air.ts";
import { holeTwice } from "./hole-twice.ts";
import { internal } from "./internal.ts";
import { interruptedExit } from "./interrupted-exit.ts";
import { interruptedFeed } from "./interrupted-feed.ts";
import { lengthOffset } from "./length-offset.ts";
import { listAfterCancel } from "./list-after-cancel.ts";
import { lowRapid } from "./low-rapid.ts";
import { lowToolChange } from "./low-tool-change.ts";
import { mainReturn } from "./main-return.ts";
import { missingPoint } from "./missing-point.ts";
import { modalLeak } from "./modal-leak.ts";
import { moreFindings } from "./more-findings.ts";
import { noFeed } from "./no-feed.ts";
import { notAMachiningProgram } from "./not-a-machining-program.ts";
import { notExecuted } from "./not-executed.ts";
import { offsetCancelledLow } from "./offset-cancelled-low.ts";
import { offsetOverwritten } from "./offset-overwritten.ts";
import { patternDiffers } from "./pattern-differs.ts";
import { peckStyle } from "./peck-style.ts";
import { plateGap } from "./plate-gap.ts";
import { pointWhereWhole } from "./point-where-whole.ts";
import { predrilledLarge } from "./predrilled-large.ts";
import { programEnd } from "./program-end.ts";
import { rPlaneHigh } from "./r-plane-high.ts";
import { rPlaneLow } from "./r-plane-low.ts";
import { rapidIntoMetal } from "./rapid-into-metal.ts";
import { reach } from "./reach.ts";
import { reamerCycle } from "./reamer-cycle.ts";
import { returnLevel } from "./return-level.ts";
import { rigidTapStart } from "./rigid-tap-start.ts";
import { rpmLimit } from "./rpm-limit.ts";
import { runLimit } from "./run-limit.ts";
import { setupCheck } from "./setup.ts";
import { shiftLeftActive } from "./shift-left-active.ts";
import { sidewaysInMetal } from "./sideways-in-metal.ts";
import { skipChangesState } from "./skip-changes-state.ts";
import { speedInherited } from "./speed-inherited.ts";
import { spindlePower } from "./spindle-power.ts";
import { spindleState } from "./spindle-state.ts";
import { spindleTorque } from "./spindle-torque.ts";
import { spotAngle } from "./spot-angle.ts";
import { startLine } from "./start-line.ts";
import { stopInRun } from "./stop-in-run.ts";
import { stoppedInHole } from "./stopped-in-hole.ts";
import { subprogram } from "./subprogram.ts";
import { syntax } from "./syntax.ts";
import { tapCycle } from "./tap-cycle.ts";
import { tapDepth } from "./tap-depth.ts";
import { tapLead } from "./tap-lead.ts";
import { thinWeb } from "./thin-web.ts";
import { throughCoolant } from "./through-coolant.ts";
import { throughDepth } from "./through-depth.ts";
import { tipAllowance } from "./tip-allowance.ts";
import { tooDeep } from "./too-deep.ts";
import { toolChange } from "./tool-change.ts";
import { toolCommentDiffers } from "./tool-comment.ts";
import { toolNotLoaded } from "./tool-not-loaded.ts";
import type { Check } from "./types.ts";
import { unitsDoubtful } from "./units-doubtful.ts";
import { unknownBranch } from "./unknown-branch.ts";
import { unknownCode } from "./unknown-code.ts";
import { unknownTool } from "./unknown-tool.ts";
import { unreadableFile } from "./unreadable-file.ts";
import { vcWindow } from "./vc-window.ts";
import { walk } from "./walk.ts";
import { workSystemLate } from "./work-system-late.ts";
import { workSystemLow } from "./work-system-low.ts";
export const CHECKS: readonly Check[] = [
  unreadableFile,
  syntax,
  notAMachiningProgram,
  dialectRule,
  pointWhereWhole,
  missingPoint,
  unitsDoubtful,
  unknownCode,
  notExecuted,
  subprogram,
  flowStructure,
  unknownBranch,
  runLimit,
  modalLeak,
  mainReturn,
  programEnd,
  endState,
  endRunning,
  stopInRun,
  skipChangesState,
  cutNote,
  setupCheck,
  entryLost,
  unknownTool,
  toolCommentDiffers,
  toolChange,
  toolNotLoaded,
  lowToolChange,
  lengthOffset,
  offsetCancelledLow,
  cycleWordMissing,
  cycleDepthOrder,
  cycleDataInherited,
  cycleLeftActive,
  cycleAtHome,
  listAfterCancel,
  returnLevel,
  g91LeftActive,
  startLine,
  rPlaneLow,
  rPlaneHigh,
  holeInAir,
  cyclePlane,
  rapidIntoMetal,
  sidewaysInMetal,
  diagonalApproach,
  lowRapid,
  holeTwice,
  patternDiffers,
  workSystemLate,
  workSystemLow,
  shiftLeftActive,
  offsetOverwritten,
  spindleState,
  stoppedInHole,
  rigidTapStart,
  tapCycle,
  tapDepth,
  tapLead,
  reamerCycle,
  noFeed,
  feedMode,
  feedModeOpen,
  rpmLimit,
  feedLimit,
  spindlePower,
  spindleTorque,
  axisThrust,
  vcWindow,
  feedWindow,
  interruptedFeed,
  interruptedExit,
  entryContradicts,
  centreInsertFree,
  predrilledLarge,
  thinWeb,
  plateGap,
  feedStaysLow,
  // After those that keep back what it tells.
  speedInherited,
  entryNotAllowed,
  entryAdvice,
  walk,
  coolantLate,
  throughCoolant,
  coolantSupply,
  coolantAtChange,
  coolantAtStop,
  reach,
  throughDepth,
  tooDeep,
  tipAllowance,
  peckStyle,
  spotAngle,
  dwellLong,
  freedDisc,
  combustibleChips,
  cannotCheck,
  internal,
  moreFindings,
];

const BY_ID: ReadonlyMap<string, Check> = new Map(CHECKS.map((check) => [check.id, check]));

/** The check of this id; undefined where there is none. */
export function checkById(id: string): Check | undefined {
  return BY_ID.get(id);
}
