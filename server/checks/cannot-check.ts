import { flowNeed, pressureNeed } from "../loads/coolant-need.ts";
import type { HoleLoads } from "../loads/types.ts";
import { WORD_NOT_KNOWN, WORD_NOT_READ } from "../program/modal.ts";
import type { Span } from "../text/place.ts";
import { anyHoles, cyclePlace, type MetalHole, metalHoles } from "./cause.ts";
import { coolantUnchecked } from "./coolant-unchecked.ts";
import { eventsOf, said } from "./events.ts";
import { feedIsWrong } from "./feed.ts";
import type { Check, CheckContext, Finding, FindingPlace } from "./types.ts";
import { Reasons, TURNING, type Unchecked } from "./unchecked.ts";

export const cannotCheck: Check = {
  id: "cannot-check",
  family: "setup",
  severity: "info",
  docs: {
    title: "What could not be checked, and why",
    what: "Everything that stayed unknown, one finding for each place where it can be put right: limits of the machine, data of tools, the material, values that only the machine knows, and for each operation the holes that run into earlier ones without a told entry.",
    why: "Silence must mean that something was checked, not that it could not be.",
    formula: "holes overlap: pitch < (D1 + D2) / 2 at a depth that both have",
    example: "machines: { vmc: { spindle: { maxRpm: 10000 } } }",
    better:
      "machines: { vmc: { axis: { thrust: 8 kN }, spindle: { maxRpm: 10000, continuous: [{ rpm: 0, torque: 95 }] } } }",
    limits:
      "A hole is compared with earlier ones of its own coordinates only. Collisions, fixtures, the machine's own state and the strength of the part are never checked and are not in this list.",
    source: "none: a limit of this tool",
  },
  *detect(context) {
    const causes = new Causes(context);
    for (const hole of metalHoles(context)) causesOf(context, hole, causes);
    for (const hole of anyHoles(context)) {
      // Of two levels the second is unknown through the first, or has an unknown word of its own.
      const field = (["startZ", "endZ"] as const).find((one) => hole.shape.unknown[one] !== undefined);
      if (field === undefined || levelIsUnread(context, hole)) continue;
      causes.add(hole, { field, why: hole.shape.unknown[field] ?? "", tool: hole.shape.tool });
    }
    const machine = context.setup.machine;
    const first = anyHoles(context)[0];
    if (machine?.kind === "turn" && context.setup.dialect.machineKind === "mill") {
      const why = `machine ${machine.name} turns, and its dialect is that of a mill`;
      const place = first === undefined ? startOf(context) : cyclePlace(context, first);
      causes.addAt(place, { field: TURNING, why, tool: null });
    }
    for (const event of eventsOf(context, "unknown-value")) {
      const why = said(event, "why", "it cannot be known from the program");
      causes.addAt({ in: "program", span: event.span }, { field: said(event, "what", "a value"), why, tool: null });
    }
    for (const [code, holes] of coolantUnchecked(context)) {
      if (codeIsTold(context, code)) continue;
      const why = code === "M" ? "an M without a known value" : `${code} is not known to this dialect`;
      for (const hole of holes) causes.add(hole, { field: "coolant", why, tool: hole.shape.tool });
    }
    yield* causes.findings();
  },
};

function startOf(context: CheckContext): FindingPlace {
  return { in: "program", span: context.spanOf(0, context.execution.blocks.blockAt(0)) };
}

/** The word of a level cannot be read: the syntax finding at it says so. */
function levelIsUnread(context: CheckContext, { shape }: MetalHole): boolean {
  const { blocks } = context.execution;
  return [shape.refs.z, shape.refs.r].some((ref) => {
    const word = blocks.spanOf(ref);
    if (word === null) return false;
    const unread = unreadOf(context).get(word.block) ?? [];
    return unread.some(({ start, end }) => start < word.end && end > word.start);
  });
}

const unreadSpans = new WeakMap<CheckContext, ReadonlyMap<number, readonly Span[]>>();

/** What the grammar could not read, by block. */
function unreadOf(context: CheckContext): ReadonlyMap<number, readonly Span[]> {
  const known = unreadSpans.get(context);
  if (known !== undefined) return known;
  const byBlock = new Map<number, Span[]>();
  for (const { code, span } of context.execution.blocks.problems()) {
    if (code === "cut-note") continue;
    const same = byBlock.get(span.block);
    if (same === undefined) byBlock.set(span.block, [span]);
    else same.push(span);
  }
  unreadSpans.set(context, byBlock);
  return byBlock;
}

/** A finding of its own names the code, and says that coolant was not checked. */
function codeIsTold(context: CheckContext, code: string): boolean {
  if (context.setup.dialect.unknownCode === "ignore") return false;
  return eventsOf(context, "unknown-code").some((event) => event.data.code === code);
}

/** Fields whose absence leaves a check undone. Others follow from these, or only some tools need them. */
const ASKED = [
  "tool",
  "n",
  "f",
  "torque",
  "thrust",
  "limits.torque",
  "limits.thrust",
  "limits.rpm",
  "engagement",
  "window",
  "window.vc",
  "window.f",
] as const;

/** More reasons than this are told together: a program full of variables has one for each. */
const MOST = 8;

interface Cause {
  readonly place: FindingPlace;
  readonly operation: number;
  readonly reasons: Reasons;
  readonly holes: Set<MetalHole>;
}

/** Reasons by where they are put right, each with the first hole that has it. */
class Causes {
  readonly #context: CheckContext;
  readonly #byKey = new Map<string, Cause>();

  constructor(context: CheckContext) {
    this.#context = context;
  }

  add(hole: MetalHole, unchecked: Unchecked): void {
    const cause = this.#cause(unchecked, hole);
    cause.holes.add(hole);
    cause.reasons.add(unchecked);
  }

  addAt(place: FindingPlace, unchecked: Unchecked): void {
    this.#cause(unchecked, null, place).reasons.add(unchecked);
  }

  #cause(unchecked: Unchecked, hole: MetalHole | null, at?: FindingPlace): Cause {
    const { setup } = this.#context;
    const key = Reasons.keyOf(unchecked, setup);
    let cause = this.#byKey.get(key);
    if (cause === undefined) {
      const place = at ?? (hole === null ? startOf(this.#context) : cyclePlace(this.#context, hole));
      cause = {
        place,
        operation: hole?.operation.index ?? -1,
        reasons: Reasons.of(unchecked, setup),
        holes: new Set(),
      };
      this.#byKey.set(key, cause);
    }
    return cause;
  }

  findings(): Finding[] {
    const all = [...this.#byKey.values()];
    const shown = all.length <= MOST ? all : all.slice(0, MOST - 1);
    const made = shown.map((cause) => this.#finding(cause, cause.reasons.message()));
    const rest = all.slice(shown.length);
    const next = rest[0];
    if (next !== undefined) {
      const text = next.reasons.message();
      made.push(
        this.#finding(next, `${text} And ${rest.length - 1} more reasons of this kind, each for a value of its own.`),
      );
    }
    return made;
  }

  #finding({ place, operation, holes }: Cause, message: string): Finding {
    let count = 0;
    for (const hole of holes) count += hole.count;
    return {
      check: "cannot-check",
      severity: "info",
      place,
      message: count > 1 ? `${message} ${count} holes.` : message,
      count: Math.max(1, count),
      related: [],
      data: null,
      operation,
    };
  }
}

/** Tools that only touch the surface: nobody declares how deep they reach. */
const SHALLOW: ReadonlySet<string> = new Set(["spot", "countersink"]);

function causesOf(context: CheckContext, hole: MetalHole, causes: Causes): void {
  const { loads, shape } = hole;
  const tap = shape.kind === "tap" || loads.tool?.family === "tap";
  for (const field of ASKED) {
    const why = loads.unknown[field];
    if (why === undefined || follows(field, loads)) continue;
    // A tap has its lead in place of a window and a speed of its own; its loads are not worked out.
    if (tap && (field.startsWith("window") || field === "torque" || field === "thrust")) continue;
    if (saidElsewhere(field, hole, context)) continue;
    causes.add(hole, { field, why, tool: shape.tool });
  }
  if (feedIsWrong(hole)) return;
  const { engagement } = loads;
  if (
    engagement !== null &&
    engagement.allowedFeed === null &&
    engagement.forbidden === "no" &&
    (engagement.class !== "none" || engagement.skin)
  ) {
    const why = engagement.allowedWhy.replace(/^cannot check, because /, "");
    causes.add(hole, { field: "engagement.allowedFeed", why, tool: shape.tool });
  }
  if (loads.coolant.kinds.length > 0) {
    const need = flowNeed(loads);
    const asked = [
      ["coolant.flow", need !== null && loads.coolant.flow === null],
      ["coolant.pressure", pressureNeed(loads) !== null && loads.coolant.pressure === null],
    ] as const;
    for (const [field, missing] of asked) {
      if (missing) causes.add(hole, { field, why: loads.unknown[field] ?? "not declared", tool: shape.tool });
    }
  }
  if (
    loads.tool !== null &&
    !tap &&
    loads.tool.LU === null &&
    loads.tool.path !== "" &&
    !SHALLOW.has(loads.tool.family)
  ) {
    causes.add(hole, {
      field: "reach",
      why: `the usable length LU of T${loads.tool.T} is not declared`,
      tool: shape.tool,
    });
  }
}

/** A finding of its own names the cause: a stopped spindle, a missing S or F, a tool that is not in the table. */
function saidElsewhere(field: string, hole: MetalHole, context: CheckContext): boolean {
  const { state, tool } = hole.shape;
  const noSpeed =
    (state.s === null && isTold(state.sWhy)) ||
    state.s === 0 ||
    (state.spindle === "stopped" && !state.unsure.includes("spindle"));
  const noFeed = (state.f === null && isTold(state.fWhy)) || state.f === 0;
  switch (field) {
    case "n":
    case "limits.torque":
      return noSpeed && (context.setup.machine !== null || state.sWhy !== null);
    case "f":
      return noFeed || noSpeed || (state.feedMode === 93 && !hole.shape.longHand);
    case "tool":
      return context.setup.hasToolTable && tool !== null && !context.setup.tools.has(tool);
    default:
      return false;
  }
}

/** A word that is missing, unreadable or unknown has a finding of its own; one that differs between two ways has none. */
function isTold(why: string | null): boolean {
  return why === null || TOLD.has(why);
}

const TOLD: ReadonlySet<string> = new Set([...Object.values(WORD_NOT_READ), ...Object.values(WORD_NOT_KNOWN)]);

/** Unknown only because something else in the list is. */
function follows(field: string, loads: HoleLoads): boolean {
  const why = loads.unknown[field];
  if (field !== "tool" && loads.tool === null) return why === loads.unknown.tool;
  // Per minute, the feed of a turn hangs on the speed.
  if (field === "f" && loads.unknown.n !== undefined) return why?.endsWith(loads.unknown.n) ?? false;
  if ((field === "torque" || field === "thrust" || field === "window") && why !== undefined) {
    return why === loads.unknown.f || why === loads.unknown.n;
  }
  return false;
}
