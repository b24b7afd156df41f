/**
 * Loads of a hole shape: what drill, machine and material make of it. One shape is worked out once; derivations only when
 * asked.
 */
import { interruptedPeak } from "../mechanics/peaks.ts";
import type { Execution, HoleShape } from "../program/types.ts";
import type { ResolvedSetup, Tool } from "../setup/types.ts";
import { scaled } from "./bands.ts";
import { coolantLead, coolantOf, secondsToMetal, throughTool } from "./coolant.ts";
import { type DeriveWhat, derivationOf } from "./derivations/index.ts";
import { engagementOf } from "./engagement.ts";
import type { Facts, Setting, ToolWindow } from "./facts.ts";
import { finite, finiteBand, known, reasonsInto, unknown } from "./known.ts";
import { limitsOf } from "./limits.ts";
import { readingFor } from "./observed.ts";
import { powerOf } from "./power.ts";
import { toolSource } from "./provenance.ts";
import { speedsOf, usableTool } from "./speeds.ts";
import { fullThrust } from "./thrust.ts";
import { pointLength } from "./tool-facts.ts";
import { fullTorque } from "./torque.ts";
import type { Band, HoleLoads, Known, LoadLimits } from "./types.ts";
import { walkOf } from "./walk.ts";
import { windowFor } from "./window.ts";
import type { WorkedEngagement } from "./worked.ts";

export interface LoadsOptions {
  /** Path or uri of the program, to find its load-meter readings; without it none is found. */
  readonly program?: string;
}

/**
 * Loads of the shapes of one execution.
 * @param setup the setup in force, its material the one to reckon with
 * @returns a function that gives the same object for the same shape; it never throws, what cannot be known is null with
 *   a reason in `unknown`
 */
export function createLoads(
  execution: Execution,
  setup: ResolvedSetup,
  options: LoadsOptions = {},
): (shape: HoleShape) => HoleLoads {
  const setting: Setting = {
    execution,
    setup,
    program: options.program ?? null,
    windows: new Map(),
    spindle: new Map(),
    curves: new Map(),
  };
  // Weak: a search for the feed that fits asks for dozens of shapes that are no hole of the program.
  const done = new WeakMap<HoleShape, HoleLoads>();
  return (shape) => {
    const earlier = done.get(shape);
    if (earlier !== undefined) return earlier;
    const loads = { ...valuesOf(shape, setting), shape, derive: derivationsOf(shape, setting) };
    done.set(shape, loads);
    return loads;
  };
}

/** Loads without their derivations: nothing in them holds on to the execution they were worked out for. */
type LoadValues = Omit<HoleLoads, "derive">;

interface Kept {
  readonly setup: ResolvedSetup;
  readonly program: string | null;
  readonly tool: Tool | null;
  readonly lead: Known<number>;
  /** Words of what is unknown tell lengths in the program's unit first. */
  readonly units: Execution["units"];
  readonly values: LoadValues;
}

/** By likeness: shapes of unchanged operations come out the same from one execution to the next, and so do their loads. */
const kept = new WeakMap<object, Kept>();

function valuesOf(shape: HoleShape, setting: Setting): LoadValues {
  const { execution, setup, program } = setting;
  const tool = shape.tool === null ? null : execution.tool(shape.tool);
  const lead = coolantLead(execution, shape);
  // A shape with a negative number is no hole of the program: one as it would be with another feed.
  const likeness = shape.id < 0 ? undefined : shape.likeness;
  const old = likeness === undefined ? undefined : kept.get(likeness);
  if (old?.setup === setup && old.program === program && old.tool === tool && sameKnown(old.lead, lead)) {
    if (old.units === execution.units) return old.values;
  }
  const values = loadsOf(shape, setting, lead);
  // What is said of a tool from a comment names the line it stands in, which may move.
  if (likeness !== undefined && tool?.assumed !== true)
    kept.set(likeness, { setup, program, tool, lead, units: execution.units, values });
  return values;
}

function sameKnown(a: Known<number>, b: Known<number>): boolean {
  return a.known ? b.known && a.value === b.value : !b.known && a.why === b.why;
}

/** Worked out anew when asked, so that thousands of holes do not keep what only a hover reads. */
function derivationsOf(shape: HoleShape, setting: Setting): HoleLoads["derive"] {
  return (what: DeriveWhat) => derivationOf(what, factsOf(shape, setting));
}

function windowOf(tool: Tool, setting: Setting): ToolWindow {
  let found = setting.windows.get(tool);
  if (found === undefined) {
    const { execution, setup } = setting;
    const window = windowFor(tool, setup.material);
    const field = window.known ? (window.value.fField ?? window.value.vcField) : null;
    found = { window, origin: field === null ? "" : toolSource(execution, setup, tool, field) };
    setting.windows.set(tool, found);
  }
  return found;
}

/** Everything about the hole that the loads and their derivations are made from. */
export function factsOf(shape: HoleShape, setting: Setting): Facts {
  const { execution, setup } = setting;
  const declared: Tool | null = shape.tool === null ? null : execution.tool(shape.tool);
  const tool = usableTool(shape, declared);
  const material = setup.material;
  const speeds = speedsOf(shape, tool);
  const through = throughTool(shape, setup, tool.known ? tool.value.coolant : null);
  const window = tool.known ? windowOf(tool.value, setting).window : tool;
  const fullTables = tool.known ? fullTorque(shape, tool.value, material, speeds.f, through) : tool;
  const thrust = tool.known ? fullThrust(shape, tool.value, material, speeds.f) : tool;
  const engagement = tool.known ? engagementOf(shape, tool.value, window, speeds, setting) : tool;
  const meanShare = engagement.known ? engagement.value.mostMetal : 1;
  const tables: Known<Band> = fullTables.known ? known(scaled(fullTables.value.band, meanShare)) : fullTables;
  const readings = tool.known
    ? readingFor(tool.value, setup, setting.program, shape.operation, speeds.n, tables)
    : { reading: null, refused: [] };
  return {
    shape,
    setting,
    tool,
    material,
    speeds,
    window,
    torque: fullTables,
    thrust,
    engagement,
    meanShare,
    edgeShare: engagement.known ? engagement.value.mostEdge : 1,
    reading: readings.reading,
    refused: readings.refused,
    limits: limitsOf(setup, tool, speeds.n, setting.spindle),
  };
}

function loadsOf(shape: HoleShape, setting: Setting, lead: Known<number>): LoadValues {
  const facts = factsOf(shape, setting);
  const { speeds, tool, window } = facts;
  const unknowns: Record<string, string> = {};
  const take = reasonsInto(unknowns);

  const torque = meanTorque(facts);
  const power = powerOf(torque, speeds.n);
  const thrust: Known<Band> = facts.thrust.known
    ? known(scaled(facts.thrust.value.band, facts.edgeShare))
    : facts.thrust;
  const point = tool.known ? pointLength(tool.value) : tool;
  const engagement = take(facts.engagement, "engagement")?.engagement ?? null;
  // A flat face asks for no reduction: its null is no unknown.
  if (engagement !== null && engagement.allowedFeed === null && (engagement.class !== "none" || engagement.skin)) {
    unknowns["engagement.allowedFeed"] = engagement.allowedWhy;
  }
  if (facts.material === null) unknowns.material = "no work material is declared";
  const supply = coolantOf(shape, setting.setup);
  const windowValue = take(window, "window");
  if (windowValue !== null && windowValue.vc === null) unknowns["window.vc"] = "no cutting speed window is declared";
  if (windowValue !== null && windowValue.f === null) unknowns["window.f"] = "no feed window is declared";

  return {
    shape,
    tool: take(tool, "tool"),
    material: facts.material,
    n: take(speeds.n, "n"),
    f: take(speeds.f, "f"),
    fz: take(speeds.fz, "fz"),
    vf: take(speeds.vf, "vf"),
    vc: take(speeds.vc, "vc"),
    mrr: take(speeds.mrr, "mrr"),
    feedTimeMin: take(speeds.feedTimeMin, "feedTimeMin"),
    depthRatio: take(speeds.depthRatio, "depthRatio"),
    torque: take(torque, "torque"),
    power: take(power, "power"),
    thrust: take(thrust, "thrust"),
    peakTorque: take(peakTorque(torque, facts.engagement, facts.meanShare), "peakTorque"),
    limits: limitsOut(facts, take),
    coolant: {
      kinds: supply.kinds,
      pressure: take(supply.pressure, "coolant.pressure"),
      flow: take(supply.flow, "coolant.flow"),
      leadSeconds: take(leadBeforeContact(shape, lead), "coolant.leadSeconds"),
    },
    engagement,
    window:
      windowValue === null || !tool.known
        ? null
        : {
            vc: windowValue.vc,
            f: windowValue.f,
            origin: windowOf(tool.value, setting).origin,
          },
    pointLength: take(point.known ? finite(point.value.value, "the point length") : point, "pointLength"),
    walk: walkOut(facts, take),
    unknown: unknowns,
  };
}

/** The way from where the stroke begins to metal is run at the programmed feed. */
function leadBeforeContact(shape: HoleShape, lead: Known<number>): Known<number> {
  if (!lead.known || shape.firstCut < 0) return lead;
  return finite(lead.value + secondsToMetal(shape, shape.firstCut), "the time since coolant came on");
}

/** Mean over the turn at the height with most metal: a reading of the meter goes before the tables. */
export function meanTorque(facts: Facts): Known<Band> {
  if (facts.reading !== null) return known(facts.reading.torque);
  if (!facts.torque.known) return facts.torque;
  return finiteBand(scaled(facts.torque.value.band, facts.meanShare), "the torque");
}

/** Within the turn each bite is a full one, however small the share of the turn in metal. */
function peakTorque(mean: Known<Band>, engagement: Known<WorkedEngagement>, meanShare: number): Known<Band> {
  if (!mean.known) return mean;
  if (!engagement.known) return engagement;
  if (engagement.value.engagement.class === "none") return mean;
  if (!(meanShare > 0)) return unknown("the drill meets no metal");
  return finiteBand(interruptedPeak(scaled(mean.value, 1 / meanShare)), "the peak torque");
}

/** Null without a reason where nothing pushes the drill aside. */
function walkOut(facts: Facts, take: ReturnType<typeof reasonsInto>): number | null {
  if (facts.engagement.known && facts.engagement.value.engagement.class === "none") return null;
  return take(walkOf(facts), "walk");
}

function limitsOut(facts: Facts, take: ReturnType<typeof reasonsInto>): LoadLimits {
  const { continuous, shortTime, thrust, rpm } = facts.limits;
  const steady = take(continuous, "limits.torque");
  if (!continuous.known) {
    take(continuous, "limits.torque.continuous");
    take(continuous, "limits.power.continuous");
  }
  const short = take(shortTime, "limits.power.shortTime");
  if (!shortTime.known) take(shortTime, "limits.torque.shortTime");
  return {
    torque: steady === null ? null : { continuous: steady.torque, shortTime: short?.torque ?? null },
    power: { continuous: steady?.power ?? null, shortTime: short?.power ?? null },
    thrust: take(thrust, "limits.thrust"),
    rpm: take(rpm, "limits.rpm"),
  };
}
