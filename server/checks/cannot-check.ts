import type { HoleLoads } from "../loads/types.ts";
import { anyHoles, cyclePlace, type MetalHole, metalHoles } from "./cause.ts";
import { flowNeed } from "./coolant-supply.ts";
import { eventsOf, said } from "./events.ts";
import { feedIsWrong } from "./feed.ts";
import type { Check, CheckContext } from "./types.ts";
import { listed } from "./wording.ts";

export const cannotCheck: Check = {
  id: "cannot-check",
  severity: "info",
  docs: {
    title: "What could not be checked, and why",
    what: "One list for the program of everything that stayed unknown: limits that nobody declared, windows that are missing, values that only the machine knows.",
    why: "Silence must mean that something was checked, not that it could not be.",
    formula: "",
    example: "machines: { vmc: { spindle: { maxRpm: 10000 } } }",
    better:
      "machines: { vmc: { axis: { thrust: 8 kN }, spindle: { maxRpm: 10000, continuous: [{ rpm: 0, torque: 95 }] } } }",
    limits:
      "Collisions, fixtures, the machine's own state and the strength of the part are never checked and are not in this list.",
    source: "none: a limit of this tool",
  },
  *detect(context) {
    const causes = new Causes();
    let first: MetalHole | null = null;
    let holes = 0;
    for (const hole of metalHoles(context)) {
      first ??= hole;
      holes += hole.count;
      causesOf(context, hole, causes);
    }
    const machine = context.setup.machine;
    if (machine?.kind === "turn") {
      causes.add(
        "turning codes, X as a diameter and feed modes",
        `machine ${machine.name} turns, and programs are read as for a mill`,
        null,
      );
    }
    for (const event of eventsOf(context, "unknown-value")) {
      causes.add(said(event, "what", "a value"), said(event, "why", "it cannot be known from the program"), null);
    }
    for (const hole of anyHoles(context)) {
      first ??= hole;
      for (const field of ["startZ", "endZ"] as const) {
        const why = hole.shape.unknown[field];
        if (why !== undefined) causes.add(FIELDS[field] ?? field, why, hole.shape.tool);
      }
    }
    if (causes.size === 0) return;
    const firstEvent = context.execution.events.find((event) => event.kind === "unknown-value");
    const place = first !== null ? cyclePlace(context, first) : placeOfFirst(context, firstEvent?.span.block);
    yield {
      check: "cannot-check",
      severity: "info",
      place,
      message: `Not checked: ${causes.words().join("; ")}.`,
      count: Math.max(1, holes),
      related: [],
      data: null,
      operation: first?.operation.index ?? -1,
    };
  },
};

function placeOfFirst(context: CheckContext, block: number | undefined): ReturnType<typeof cyclePlace> {
  return { in: "program", span: context.spanOf(0, block ?? context.execution.blocks.blockAt(0)) };
}

const FIELDS: { readonly [field: string]: string } = {
  tool: "all loads",
  n: "speed",
  f: "feed per revolution",
  vc: "cutting speed",
  vf: "feed rate",
  torque: "torque",
  power: "power",
  thrust: "thrust",
  startZ: "depth and loads",
  endZ: "depth and loads",
  depthRatio: "depth over diameter",
  engagement: "entry",
  "engagement.allowedFeed": "feed at the entry",
  "limits.torque": "spindle torque and power limit",
  "limits.thrust": "axis thrust limit",
  "limits.rpm": "speed limit",
  window: "speed and feed window",
  "window.vc": "cutting speed window",
  "window.f": "feed window",
  "coolant.flow": "coolant flow",
  "coolant.pressure": "coolant pressure",
};

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

/** Reason → what it leaves unchecked, and for which tools. */
class Causes {
  #byWhy = new Map<string, { what: Set<string>; tools: Set<number> }>();

  get size(): number {
    return this.#byWhy.size;
  }

  add(what: string, why: string, tool: number | null): void {
    let cause = this.#byWhy.get(why);
    if (cause === undefined) {
      cause = { what: new Set(), tools: new Set() };
      this.#byWhy.set(why, cause);
    }
    cause.what.add(what);
    if (tool !== null) cause.tools.add(tool);
  }

  words(): string[] {
    return [...this.#byWhy].map(([why, { what, tools }]) => {
      const named = [...tools].filter((tool) => !why.includes(`T${tool}`)).map((tool) => `T${tool}`);
      return `${listed([...what])}${named.length === 0 ? "" : ` of ${listed(named)}`} (${why})`;
    });
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
    causes.add(FIELDS[field] ?? field, why, field.startsWith("limits") ? null : shape.tool);
  }
  if (feedIsWrong(hole)) return;
  const { engagement } = loads;
  if (
    engagement !== null &&
    engagement.allowedFeed === null &&
    engagement.forbidden === "no" &&
    (engagement.class !== "none" || engagement.skin)
  ) {
    causes.add("feed at the entry", engagement.allowedWhy.replace(/^cannot check, because /, ""), shape.tool);
  }
  if (loads.coolant.kinds.length > 0) {
    const need = flowNeed(loads);
    if (need !== null && loads.coolant.flow === null)
      causes.add("coolant flow", loads.unknown["coolant.flow"] ?? "not declared", shape.tool);
    if (loads.tool?.minPressure != null && loads.coolant.pressure === null) {
      causes.add("coolant pressure", loads.unknown["coolant.pressure"] ?? "not declared", shape.tool);
    }
  }
  if (
    loads.tool !== null &&
    !tap &&
    loads.tool.LU === null &&
    loads.tool.path !== "" &&
    !SHALLOW.has(loads.tool.family)
  ) {
    causes.add("reach", `the usable length LU of T${loads.tool.T} is not declared`, shape.tool);
  }
}

/** A finding of its own names the cause: a stopped spindle, a missing S or F, a tool that is not in the table. */
function saidElsewhere(field: string, hole: MetalHole, context: CheckContext): boolean {
  const { state, tool } = hole.shape;
  const noSpeed = state.s === null || state.s === 0 || state.spindle === "stopped";
  const noFeed = state.f === null || state.f === 0;
  switch (field) {
    case "n":
    case "limits.torque":
      return noSpeed && context.setup.machine !== null;
    case "f":
      return noFeed || noSpeed;
    case "tool":
      return context.setup.hasToolTable && tool !== null && !context.setup.tools.has(tool);
    default:
      return false;
  }
}

/** Unknown only because something else in the list is. */
function follows(field: string, loads: HoleLoads): boolean {
  const why = loads.unknown[field];
  if (field !== "tool" && loads.tool === null) return why === loads.unknown.tool;
  if ((field === "torque" || field === "thrust" || field === "window") && why !== undefined) {
    return why === loads.unknown.f || why === loads.unknown.n;
  }
  return false;
}
