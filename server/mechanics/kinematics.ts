/**
 * Kinematics of drilling: speeds, feeds, times and the geometry of the point.
 *
 * Pure geometry, so no band. Callers pass finite numbers; diameters, speeds and feeds above zero unless it says
 * otherwise. Source: definitions of ISO 3002 (from memory); the forms also stand in Groover, "Fundamentals of Modern
 * Manufacturing", chapter 22.
 */

const RAD = Math.PI / 180;

/**
 * Cutting speed at the corner, m/min: vc = π · DC · n / 1000.
 * @param DC diameter actually cutting, mm (a step drill: the step's own)
 * @param n spindle speed, 1/min, 0 allowed
 */
export function cuttingSpeed(DC: number, n: number): number {
  return (Math.PI * DC * n) / 1000;
}

/**
 * Spindle speed, 1/min, that gives cutting speed vc: n = 1000 · vc / (π · DC).
 * @param vc m/min
 * @param DC mm, above 0
 */
export function spindleSpeed(vc: number, DC: number): number {
  return (1000 * vc) / (Math.PI * DC);
}

/**
 * Feed rate, mm/min: vf = f · n.
 * @param f mm/rev
 * @param n 1/min
 */
export function feedRate(f: number, n: number): number {
  return f * n;
}

/**
 * Feed per revolution, mm/rev, of a feed rate: f = vf / n.
 * @param vf mm/min
 * @param n 1/min, above 0
 */
export function feedPerRev(vf: number, n: number): number {
  return vf / n;
}

/**
 * Feed per effective edge, mm: fz = f / ZEFP.
 * @param f mm/rev
 * @param ZEFP effective edges: 2 for a two-lip drill, 1 for a centre and peripheral insert pair
 */
export function feedPerTooth(f: number, ZEFP: number): number {
  return f / ZEFP;
}

/**
 * Removal rate, cm³/min: Q = π · (DC² - core²) · f · n / 4000.
 * @param DC mm
 * @param f mm/rev
 * @param n 1/min
 * @param core diameter already open, mm; 0 from solid
 */
export function removalRate(DC: number, f: number, n: number, core = 0): number {
  return (Math.PI * (DC * DC - core * core) * f * n) / 4000;
}

/**
 * Length of the drill point from tip to corner, mm: PL = (DC / 2) / tan(SIG / 2). The same length is the point
 * allowance at the entry and at breakthrough. It is the cotangent of the half angle; the tangent, printed in places, is
 * wrong.
 * @param DC mm
 * @param SIG point angle, degrees, above 0 to 180; 180 gives exactly 0
 */
export function pointLength(DC: number, SIG: number): number {
  return (DC / 2) * pointSlope(SIG);
}

/** Rise of the edge per mm of radius: cot(SIG / 2). 0 for a flat front. */
export function pointSlope(SIG: number): number {
  return SIG >= 180 ? 0 : 1 / Math.tan((SIG / 2) * RAD);
}

/**
 * Helix angle of the path of a point of the edge, degrees: η = atan(f / (π · d)). The clearance the edge needs there
 * grows by it.
 * @param f mm/rev
 * @param d diameter on which the point runs, mm, above 0: DC for the corner
 */
export function helixAngle(f: number, d: number): number {
  return Math.atan(f / (Math.PI * d)) / RAD;
}

/** Feed path of a hole without pecks. */
export interface FeedPath {
  /** Clearance between the start of the feed and the surface, mm. */
  readonly approach: number;
  /** Point length, mm. */
  readonly point: number;
  /** mm/min, above 0 */
  readonly vf: number;
}

/**
 * Feed time of a through hole, min: (approach + thickness + point + overrun) / vf.
 * @param path thickness of the plate and overrun beyond it, mm
 */
export function throughTime(path: FeedPath & { readonly thickness: number; readonly overrun: number }): number {
  return (path.approach + path.thickness + path.point + path.overrun) / path.vf;
}

/**
 * Feed time of a blind hole, min: (approach + depth + point) / vf. The depth is that of the full diameter; where the
 * drawing means the tip, pass a point of 0.
 */
export function blindTime(path: FeedPath & { readonly depth: number }): number {
  return (path.approach + path.depth + path.point) / path.vf;
}

/** A peck cycle with full retract. */
export interface PeckPath {
  /** Length from the surface to the deepest tip position, mm. */
  readonly length: number;
  /** Depth of one peck, mm, above 0; Infinity drills in one stroke. */
  readonly peck: number;
  /** Distance above the last depth at which the feed starts anew, mm. */
  readonly clearance: number;
  /** Height of the retract plane above the surface, mm. */
  readonly retract: number;
  /** mm/min, above 0 */
  readonly vf: number;
  /** mm/min, above 0 */
  readonly rapid: number;
}

/**
 * Time of a peck cycle with full retract, the last retract included, min. Feed: length + retract + (k - 1) · clearance
 * with k = ceil(length / peck); rapid: up from every peck, down to the clearance above the last depth for every peck
 * but the first. Derived from the motions of the cycle; no acceleration.
 */
export function peckTime(path: PeckPath): number {
  const strokes = Math.max(1, Math.ceil(path.length / path.peck - 1e-9));
  // Depths of all pecks but the last: peck · (1 + 2 + ... + (strokes - 1)).
  const between = strokes > 1 ? (path.peck * strokes * (strokes - 1)) / 2 : 0;
  const up = strokes * path.retract + between + path.length;
  const down = (strokes - 1) * (path.retract - path.clearance) + between;
  const feed = path.length + path.retract + (strokes - 1) * path.clearance;
  return feed / path.vf + (up + down) / path.rapid;
}
