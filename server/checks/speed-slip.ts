/** One slip of S moves cutting speed and, under feed per minute, feed per turn: one finding at the S, not two. */

import type { MetalHole } from "./cause.ts";
import { stateAt } from "./cuts.ts";
import { levelIn } from "./family.ts";
import { cuttingStrokes, FEED_SILENT, feedIsWrong } from "./feed.ts";
import { rpmLimit } from "./rpm-limit.ts";
import type { CheckContext } from "./types.ts";

/** Share by which a speed may pass the window before it is worth a word: rounding of S and of the box label. */
const SPEED_SILENT = 1.01;
/** HSS in cast or forged skin runs at three quarters of its speed. Common practice, no source. */
const SKIN_SHARE = 0.75;

export interface SpeedFault {
  readonly over: boolean;
  /** The end of the window on that side, m/min. */
  readonly vc: number;
}

/** Cutting speed outside the window of the tool in a way that is worth a word; null: none, or it is not known. */
export function speedFault(context: CheckContext, { loads }: MetalHole): SpeedFault | null {
  const window = loads.window?.vc ?? null;
  const { vc, n, tool, limits, engagement } = loads;
  if (window === null || vc === null || n === null || tool === null || vc <= 0) return null;
  // The check on the speed limit names an S that suits both.
  if (overLimit(context, n, limits.rpm)) return null;
  const skin = engagement?.skin === true;
  const max = skin && tool.family === "twist-hss" ? window[2] * SKIN_SHARE : window[2];
  if (vc > max * SPEED_SILENT) return { over: true, vc: max };
  const atTop = limits.rpm !== null && n >= limits.rpm * 0.995;
  return vc * SPEED_SILENT < window[0] && !atTop && !skin ? { over: false, vc: window[0] } : null;
}

export interface SpeedSlip {
  /** Feed that the wrong speed makes of the F, mm/rev. */
  readonly f: number;
  /** What the same F makes at the end of the window of the speed, mm/rev. */
  readonly fitting: number;
  /** The end of the feed window that `f` passes, mm/rev. */
  readonly limit: number;
  readonly high: boolean;
}

/** The fastest cut's feed per turn is outside its window only because the speed is; null: it is not so. */
export function speedSlip(hole: MetalHole, fault: SpeedFault): SpeedSlip | null {
  const { loads, shape } = hole;
  const window = loads.window?.f ?? null;
  if (window === null || loads.vc === null || feedIsWrong(hole)) return null;
  const [min, , max] = window;
  let f = 0;
  for (const stroke of cuttingStrokes(shape)) {
    if (stroke.n !== loads.n || stateAt(shape, stroke).feedMode !== 94) return null;
    if (stroke.f !== null) f = Math.max(f, stroke.f);
  }
  const fitting = (f * loads.vc) / fault.vc;
  if (fitting * FEED_SILENT < min || fitting > max * FEED_SILENT) return null;
  if (f > max * FEED_SILENT) return { f, fitting, limit: max, high: true };
  return f * FEED_SILENT < min ? { f, fitting, limit: min, high: false } : null;
}

/** The speed is over the limit of spindle or tool, and the check for that speaks as loud as one on the window would. */
function overLimit({ setup }: CheckContext, n: number, limit: number | null): boolean {
  if (limit === null || n <= limit * 1.0005) return false;
  const level = levelIn(setup.severity, rpmLimit);
  return level !== "off" && level !== "info";
}
