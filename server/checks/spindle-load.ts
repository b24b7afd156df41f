/** What the checks on spindle power and spindle torque share: candidates for one of the two. */
import type { HoleLoads } from "../loads/types.ts";
import { say } from "../units/wording.ts";
import { at, type Candidate, keyOf, type MetalHole, metalHoles, ruledBy } from "./cause.ts";
import { everyCut } from "./cuts.ts";
import { cuttingStrokes, feedIsWrong, feedThatFits, heaviest } from "./feed.ts";
import { type LoadLevel, loadLevel, rulingLimit } from "./levels.ts";
import type { CheckContext } from "./types.ts";
import { feedWord, percent, sayBand } from "./wording.ts";

type What = "power" | "torque";

const UNIT = { power: "kW", torque: "N·m" } as const;
const NAME = { power: "Power", torque: "Torque" } as const;

function limitsOf(loads: HoleLoads, what: What): { continuous: number; shortTime: number | null } | null {
  if (what === "torque") return loads.limits.torque;
  const { continuous, shortTime } = loads.limits.power;
  return continuous === null ? null : { continuous, shortTime };
}

export function* spindleLoads(context: CheckContext, what: What): Generator<Candidate> {
  const spindle = context.setup.machine?.spindle ?? null;
  for (const cut of everyCut(context, metalHoles(context))) {
    // A later stroke at another speed asks for its own power.
    const hole = cut.whole === undefined ? heaviest(context, cut) : cut;
    const { loads, shape } = hole;
    if (rulingLimit(loads, spindle) !== what || feedIsWrong(hole)) continue;
    const load = loads[what];
    const limits = limitsOf(loads, what);
    if (load === null || limits === null) continue;
    const level = loadLevel(load, limits.continuous, limits.shortTime);
    if (level === null) continue;
    const fRef = cuttingStrokes(shape)[0]?.fRef ?? shape.state.from.f;
    const sRef = shape.state.from.s;
    yield {
      key: keyOf(fRef, hole),
      severity: level.severity,
      weight: load.nominal / limits.continuous,
      place: at(context, fRef, hole.firstBlock),
      ruled: ruledBy(hole, fRef, "load"),
      hole,
      message: `${words(context, hole, what, level)}${level.why === "close" ? "" : ` ${wayOut(context, hole, what)}`}`,
      data: { measured: load.nominal, limit: limits.continuous, unit: UNIT[what] },
      also: { thing: "mean", text: short(context, hole, what, load.nominal, limits.continuous) },
      related:
        sRef === 0 || loads.n === null
          ? []
          : [
              {
                place: at(context, sRef, hole.firstBlock),
                message: `Speed set here: ${say(loads.n, "rotation", context.system)}`,
              },
            ],
    };
  }
}

/** What is said of the mean where a peak within the turn is worse. */
function short(context: CheckContext, hole: MetalHole, what: What, nominal: number, limit: number): string {
  const { system } = context;
  const over = nominal > limit;
  const word = over ? fittingWord(context, hole, what).word : null;
  const out = word === null ? "" : `, and ${word} or less keeps it under`;
  return `over the turn it is ${say(nominal, what, system)}, ${over ? "over" : "close to"} the ${say(limit, what, system)} the spindle gives continuously (${percent(nominal / limit)})${out}`;
}

function words(context: CheckContext, hole: MetalHole, what: What, level: LoadLevel): string {
  const { system, setup } = context;
  const { loads } = hole;
  const load = loads[what];
  const limits = limitsOf(loads, what);
  if (load === null || limits === null) return "";
  const measured = `${NAME[what]} ${sayBand(load, what, system)},`;
  const speed = loads.n === null ? "" : ` at ${say(loads.n, "rotation", system)}`;
  const share = percent(load.nominal / limits.continuous);
  const continuous = `the ${say(limits.continuous, what, system)} the spindle gives continuously${speed} (${share})`;
  const minutes = setup.machine?.spindle?.shortTime?.minutes;
  const short =
    limits.shortTime === null
      ? ""
      : ` the ${say(limits.shortTime, what, system)} it gives for ${minutes === undefined ? "a short time" : `${minutes} min`}`;
  let text: string;
  switch (level.why) {
    case "over-short-time":
      text = `${measured} is over ${continuous} and ${percent(load.nominal / (limits.shortTime ?? load.nominal))} of${short}.`;
      break;
    case "surely-over":
      text = `${measured} is over ${continuous}, even at the low end of the band.`;
      break;
    case "over":
      text = `${measured} is over ${continuous}.${short === "" ? "" : ` It is ${percent(load.nominal / (limits.shortTime ?? load.nominal))} of${short}.`}${duty(context, hole, what, limits.continuous)}`;
      break;
    case "close":
      return `${measured} is close to ${continuous}. A worn edge may take it over.`;
  }
  // Where torque rules, people still ask for the power; the other way round nobody does.
  if (what === "power") return text;
  const other: What = "power";
  const otherLoad = loads[other];
  const otherLimits = limitsOf(loads, other);
  if (otherLoad === null || otherLimits === null || otherLoad.nominal <= otherLimits.continuous) return text;
  return `${text} The same in ${other}: ${say(otherLoad.nominal, other, system)} of ${say(otherLimits.continuous, other, system)}.`;
}

/**
 * Thermal equivalent over the operation, rapids and tool change included: root mean square against the continuous limit.
 * Said only where it passes, since the level stays that of the single hole.
 */
function duty(context: CheckContext, hole: MetalHole, what: What, continuous: number): string {
  const { operation } = hole;
  if (operation.seconds === null || !(operation.seconds > 0)) return "";
  let sum = 0;
  for (const { loads, count, shape } of context.shapesOf(operation)) {
    if (shape.firstCut < 0) continue;
    const load = loads[what];
    if (load === null || loads.feedTimeMin === null) return "";
    sum += load.nominal ** 2 * loads.feedTimeMin * 60 * count;
  }
  const mean = Math.sqrt(sum / operation.seconds);
  if (!Number.isFinite(mean) || mean > continuous) return "";
  return ` Over the whole operation the motor sees ${say(mean, what, context.system)} (root mean square), which passes.`;
}

function fittingWord(
  context: CheckContext,
  hole: MetalHole,
  what: What,
): { readonly fitting: number | null; readonly word: string | null } {
  const fitting = feedThatFits(context, hole, what, (loads) => {
    const load = loads[what];
    const limits = limitsOf(loads, what);
    return load !== null && limits !== null && load.nominal <= limits.continuous;
  });
  const word = fitting === null ? null : feedWord(fitting, hole.loads.n, hole.shape.state, context.system);
  return { fitting, word };
}

function wayOut(context: CheckContext, hole: MetalHole, what: What): string {
  const { fitting, word } = fittingWord(context, hole, what);
  const other = what === "torque" ? "a speed in the spindle's power range, " : "";
  // Power goes with speed and feed, torque with the feed alone.
  const slower = what === "power" ? "a lower speed at the same feed per turn, " : other;
  if (word === null) return `Way out: no feed fits that still cuts; ${slower}a smaller drill or a stronger machine.`;
  const nominal = hole.loads.window?.f?.[0];
  const slow = nominal !== undefined && fitting !== null && fitting < nominal ? " (below the drill's window)" : "";
  return `Way out: ${word} or less keeps it under${slow}; or ${other}a smaller drill or a stronger machine.`;
}
