/**
 * The measures of an interrupted cut with the tip at one height: how much of each turn is in metal, where, and what
 * side force it leaves. Definitions: common practice, no source; the integrals are ours, checked against brute force.
 */
import { ALL, NONE } from "./arcs.ts";
import { circle, lookRound } from "./circle.ts";
import type { DrillFront } from "./drill.ts";
import { imbalanceAt } from "./imbalance.ts";
import { panelEdges } from "./panels.ts";
import { integrate, SHARE_NOISE, Sums } from "./quadrature.ts";
import { type Scene, sceneOf } from "./scene.ts";
import type { Solid } from "./solids.ts";

export interface Measures {
  /** Tip height, mm, from the reference of the surface. */
  readonly z: number;
  /** Engaged share of the area of the hole, 0 to 1. */
  readonly area: number;
  /** Engaged share of the cutting edge, mean over the turn, 0 to 1. */
  readonly edge: number;
  /** Engaged share of the turn at the corner, 0 to 1. */
  readonly rim: number;
  /** Largest single missing arc at the corner, in turns; 1 when the corner is in air. */
  readonly voidArc: number;
  /** Engaged share of the area of the centre zone, 0 to 1. */
  readonly core: number;
  /** Largest over the turn of |centre zone share - peripheral zone share|, the zones 180 degrees apart, 0 to 1. */
  readonly imbalance: number;
  /** Mean side force in the frame of the part, normalised: s = π·S / (kc·f·R), 0 to 1. */
  readonly side: number;
  /** Where the side force points: its parts along x and y, each -1 to 1. */
  readonly sideX: number;
  readonly sideY: number;
  /** Times per turn that the corner enters metal. */
  readonly entries: number;
  /** Some radius is in metal for part of the turn only. */
  readonly interrupted: boolean;
  /** Any metal at all, however little. */
  readonly touching: boolean;
}

/** What is measured at one height. The imbalance costs more than all else and is worked out when asked for. */
export class Look implements Measures {
  readonly z: number;
  area = 0;
  edge = 0;
  rim = 0;
  voidArc = 1;
  core = 0;
  side = 0;
  sideX = 0;
  sideY = 0;
  entries = 0;
  interrupted = false;
  touching = false;
  readonly #scene: Scene;
  readonly #front: DrillFront;
  /** A look at another height that sees the same. */
  #same: Look | null = null;
  #imbalance = -1;

  constructor(scene: Scene, front: DrillFront, z: number) {
    this.#scene = scene;
    this.#front = front;
    this.z = z;
  }

  get imbalance(): number {
    if (this.#imbalance < 0) this.#imbalance = this.#same?.imbalance ?? imbalanceAt(this.#scene, this.#front, this);
    return this.#imbalance;
  }

  /** The same at another height, where nothing is different. */
  movedTo(z: number): Look {
    const there = new Look(this.#scene, this.#front, z);
    there.area = this.area;
    there.edge = this.edge;
    there.rim = this.rim;
    there.voidArc = this.voidArc;
    there.core = this.core;
    there.side = this.side;
    there.sideX = this.sideX;
    there.sideY = this.sideY;
    there.entries = this.entries;
    there.interrupted = this.interrupted;
    there.touching = this.touching;
    there.#same = this;
    return there;
  }
}

const core = new Sums();
const outer = new Sums();

/** All measures with the tip at height z. */
export function lookFrom(scene: Scene, front: DrillFront, z: number): Look {
  const { R, centre, slope } = front;
  const out = new Look(scene, front, z);
  const edges = panelEdges(scene, front, z);
  core.clear();
  outer.clear();
  for (let i = 0; i + 1 < edges.count; i++) {
    const a = edges.at[i] as number;
    const b = edges.at[i + 1] as number;
    const inner = b <= centre * (1 + 1e-12);
    // What a share counts in the core's area, the area, and the side force.
    const counts = Math.max(inner ? (2 * b) / (centre * centre) : (2 * b) / (R * R), 1 / R);
    integrate(scene, slope, z, a, b, counts, inner ? core : outer);
  }
  const code = lookRound(scene, R, z + slope * R);
  out.rim = code === NONE ? 0 : code === ALL ? 1 : snap(circle.share);
  out.area = snap((2 * (core.area + outer.area)) / (R * R));
  out.edge = snap((core.edge + outer.edge) / R);
  out.core = snap((2 * core.area) / (centre * centre));
  if (out.rim === 1) out.voidArc = 0;
  else if (code !== NONE) {
    out.voidArc = circle.gap;
    out.entries = circle.entries;
  }
  const sx = (core.sx + outer.sx) / (2 * R);
  const sy = (core.sy + outer.sy) / (2 * R);
  const side = Math.sqrt(sx * sx + sy * sy);
  const scale = side > 1 ? 1 / side : 1;
  out.sideX = sx * scale;
  out.sideY = sy * scale;
  out.side = Math.min(1, side);
  out.interrupted = core.partial || outer.partial || (out.rim > 0 && out.rim < 1);
  out.touching = core.touching || outer.touching || out.rim > 0;
  return out;
}

/** All measures with the tip at height z. */
export function measure(solid: Solid, front: DrillFront, z: number): Measures {
  return lookFrom(sceneOf(solid), front, z);
}

function snap(share: number): number {
  if (share < SHARE_NOISE) return 0;
  return share > 1 - SHARE_NOISE ? 1 : share;
}
