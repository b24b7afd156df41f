/** Keys of a dialect: cycles and moves. */

import { gCode, letters } from "./dialect-parts.ts";
import { choice, flag, list, map, quantity } from "./node.ts";

const KINDS = {
  drill: "Feed to depth, rapid out.",
  "dwell-drill": "Feed to depth, dwell, rapid out.",
  peck: "Pecks with full retract.",
  "chip-break": "Pecks with a short retract.",
  tap: "Right-hand tapping.",
  "tap-left": "Left-hand tapping.",
  bore: "Boring.",
  "fine-bore": "Boring with orientation and shift.",
  "back-bore": "Boring from the far side.",
  "face-peck": "Pecks along Z from where the tool stands, as G74 of turning controls.",
  turning: "A turning cycle: read, its cuts not worked out.",
  none: "Takes an inherited cycle away.",
} as const;

export const CYCLES = {
  cycleGroupSeparate: flag({ description: "Cycle codes G80 to G89 form a group of their own." }),
  afterG80: choice(
    { none: "No motion mode.", "previous-group1": "The motion mode before the cycle.", G0: "Rapid." },
    { description: "Motion mode after G80." },
  ),
  startMotion: choice(
    { none: "No motion mode.", G0: "Rapid.", G1: "Feed." },
    { description: "Motion mode at the start of a program." },
  ),
  bareMotionCode: choice(
    { error: "A mistake.", mode: "Sets the mode." },
    { description: "G0 or G1 without axis words." },
  ),
  cycles: map(
    choice(KINDS, { description: "What this cycle code does." }),
    {
      description: "Cycle codes and what they do, changed or added to the inherited ones.",
      examples: ["{ G83: peck, G73: chip-break }"],
    },
    gCode,
  ),
  cycleDataScope: choice(
    { "same-code": "Only under the same code.", "until-g80": "Until G80, also under another code." },
    { description: "How long R, Z, Q and P stay in force." },
  ),
  stickyKind: choice(
    { number: "The number stays.", position: "The position stays." },
    { description: "What stays in force when G90 and G91 change inside a run." },
  ),
  pRequired: flag({ description: "Dwell cycles need P." }),
  peckWithoutQ: choice(
    { error: "A mistake.", drill: "One stroke to the depth." },
    { description: "A peck cycle to which no Q was ever given." },
  ),
  cycleR: choice(
    {
      absolute: "R2. is the level 2.",
      "from-initial": "R-3. is 3 below the level the cycle began at.",
      undeclared: "Read as a level, and said once where R could be a distance as well.",
    },
    { description: "What R of a cycle is measured from in absolute coordinates. Turning controls differ." },
  ),
  initialLevel: choice(
    { "before-block": "Z before each block.", "before-run": "Z before the run of holes." },
    { description: "Initial level of G98." },
  ),
  g91RReference: choice(
    { "current-z": "From the Z before the block.", "initial-level": "From the initial level." },
    { description: "What R is measured from under G91." },
  ),
  repeatLetters: letters("Letters that carry the repeat count of a cycle.", "LK"),
  repeatZero: choice(
    { error: "A mistake.", "store-only": "Stores the data, drills nothing." },
    { description: "A repeat count of 0." },
  ),
  cycleWithoutXy: choice(
    { drill: "Drills here.", store: "Stores the data." },
    { description: "A cycle block without a position." },
  ),
  planeInCycle: choice(
    { reuse: "Goes on in the new plane.", error: "A mistake." },
    { description: "Plane change inside a run of holes." },
  ),
  peckRetract: choice(
    { R: "To the R plane.", clear: "To the clearance above the last depth." },
    { description: "Where a full-retract peck goes back to." },
  ),
  peckClearance: quantity(
    "length",
    { description: "Distance above the last depth where the peck feeds again." },
    { min: 0 },
  ),
  chipBreakRetract: quantity("length", { description: "Retract of a chip-break peck." }, { min: 0 }),
  g76Shift: choice(
    {
      Q: "By Q; which way is a parameter of the machine, unless I or J say it.",
      "Q+X": "By Q towards X+.",
      "Q-X": "By Q towards X-.",
      "Q+Y": "By Q towards Y+.",
      "Q-Y": "By Q towards Y-.",
      IJ: "By I and J.",
    },
    { description: "What moves the tool off the wall in G76 and G87." },
  ),
  returnDefault: choice(
    { G98: "Initial level.", G99: "R plane.", unknown: "Must be programmed." },
    { description: "Return level before any G98 or G99." },
  ),
  g28Axes: choice({ "named-only": "Only the axes named.", all: "All axes." }, { description: "Axes that G28 moves." }),
  g28Bare: choice(
    { "all-axes": "All axes go home.", nothing: "Nothing moves.", error: "A mistake." },
    { description: "G28 without axis words." },
  ),
  g53InG91: choice(
    { error: "A mistake.", absolute: "Machine coordinates all the same." },
    { description: "G53 under G91." },
  ),
  g53AndTlo: choice(
    { "ignores-tlo": "Z places the spindle.", "uses-tlo": "Z places the tool." },
    { description: "Whether the tool length counts in a G53 move." },
  ),
  rapidPath: choice(
    { linear: "Straight.", dogleg: "Each axis at its own rate." },
    { description: "Path of a rapid move." },
  ),
  rigidTap: choice(
    {
      none: "Nothing: the spindle is started before the cycle.",
      "m29-before": "M29 before the cycle or in its block.",
      "m29-in-block": "M29 in the block of the cycle only.",
      always: "Every tapping cycle.",
      codes: "G84.2 right-hand and G84.3 left-hand.",
    },
    { description: "What makes a tapping cycle run the spindle itself." },
  ),
  tapNeedsSpindle: flag({ description: "A tapping cycle needs the spindle on beforehand." }),
  wcsCodes: list(
    choice(
      {
        G54: "G54 to G59.",
        "G54.1": "G54.1 P1 and on, also written G54 P1.",
        "G59.1": "G59.1 to G59.3.",
        G110: "G110 to G129.",
        G154: "G154 P1 and on.",
      },
      { description: "A family of work coordinate systems." },
    ),
    {
      description: "Work coordinate systems that the control has; a list replaces the inherited one.",
      examples: ["[G54, G154]"],
    },
    { single: true },
  ),
  g10Forms: list(
    choice(
      {
        L2: "Work offsets.",
        L20: "Further work offsets.",
        L10: "Length, geometry.",
        L11: "Length, wear.",
        L12: "Radius, geometry.",
        L13: "Radius, wear.",
        L50: "Parameters, until G11.",
      },
      { description: "A form of G10." },
    ),
    { description: "Forms of G10 that the control has; a list replaces the inherited one.", examples: ["[L2, L20]"] },
    { single: true },
  ),
};
