/**
 * Codes between the numbers of a block and the place they mean: polar numbers (G16), scaling (G51), rotation (G68),
 * mirror image (G51.1). The run's position is where the tool is in the work system, so that holes and motions need to
 * know nothing of these codes; what a block's words mean is worked out here.
 *
 * Order (common practice, no source): polar, scaling, rotation, mirror image, then G52 and G92, then the work offset.
 * Mirroring last turns the sense of a rotation around, as the controls with these codes do. Centres and mirror lines
 * are absolute in G90 and G91; a centre of G68 given while G51 is on is itself scaled, its angle is not.
 */
export type Triple = readonly [number, number, number];

/** The two axes of each plane, in right-handed order, and the one square to it. */
export const PLANES = { 17: [0, 1, 2], 18: [2, 0, 1], 19: [1, 2, 0] } as const;

export interface Scaling {
  readonly centre: Triple;
  readonly factor: Triple;
}

export interface Rotation {
  readonly plane: 17 | 18 | 19;
  /** Centre in the plane, after scaling. */
  readonly u: number;
  readonly v: number;
  /** Degrees, from the first axis of the plane to the second. */
  readonly angle: number;
  /** Turned about a line in space, which is not followed: nothing is known of a position in it. */
  readonly inSpace: boolean;
}

/** Mirror line of each axis; null: not mirrored. NaN anywhere in a transform: not known. */
export type Mirror = readonly [number | null, number | null, number | null];

/** Program numbers q to positions p: p = m q + t. Never changed once made. */
export interface Transform {
  readonly scaling: Scaling | null;
  readonly rotation: Rotation | null;
  readonly mirror: Mirror;
  /** Rows one after the other. */
  readonly m: Float64Array;
  readonly t: Triple;
  /** Inverse of m. */
  readonly back: Float64Array;
  /** Codes in force, for messages: `G68`, `G51 and G68`. */
  readonly codes: string;
  /** What of it is not known; empty: all is. */
  readonly why: string;
  readonly key: string;
}

/** Polar numbers: the radius, angle and pole in force. NaN: none yet, or not known. */
export interface Polar {
  readonly plane: 17 | 18 | 19;
  readonly radius: number;
  readonly angle: number;
  readonly pole: readonly [number, number];
  /** Whether it is on is itself not known. */
  readonly unsure: boolean;
}

/** What the interpreter keeps of these codes. All of it is replaced, never changed in place. */
export interface TransformState {
  transform: Transform | null;
  polar: Polar | null;
  /**
   * Axes (bits 0 to 2) not written since a code changed how they read: controls differ in what an omitted axis then
   * means. Bits 3 to 5: an increment of the axis is in doubt too, after a cancel.
   */
  doubt: number;
  /** Program numbers of the axes as written, for the time in which the position is not known because of another axis. */
  written: Triple | null;
}

export const noTransform = (): TransformState => ({ transform: null, polar: null, doubt: 0, written: null });

export const NO_MIRROR: Mirror = [null, null, null];
const NOWHERE: Triple = [Number.NaN, Number.NaN, Number.NaN];
export const at = (values: ArrayLike<number>, i: number): number => values[i] ?? Number.NaN;

/** Cosine and sine; exact at the quarter turns, so that a turned axis stays clean of the other. */
export function turn(degrees: number): readonly [number, number] {
  const quarter = degrees / 90;
  if (Number.isInteger(quarter)) {
    const n = ((quarter % 4) + 4) % 4;
    return [n === 0 ? 1 : n === 2 ? -1 : 0, n === 1 ? 1 : n === 3 ? -1 : 0];
  }
  const radians = (degrees * Math.PI) / 180;
  return [Math.cos(radians), Math.sin(radians)];
}

export function makeTransform(scaling: Scaling | null, rotation: Rotation | null, mirror: Mirror): Transform | null {
  const plain = scaling === null || scaling.factor.every((factor) => factor === 1);
  const whole = rotation === null || (rotation.angle % 360 === 0 && !rotation.inSpace);
  if (plain && whole && mirror.every((line) => line === null)) return null;
  const factor = scaling?.factor ?? ([1, 1, 1] as const);
  const m = new Float64Array(9);
  const back = new Float64Array(9);
  const t: [number, number, number] = [0, 0, 0];
  for (let i = 0; i < 3; i++) {
    m[4 * i] = 1;
    // A centre of no account must not make a position unknown.
    const s = at(factor, i);
    t[i] = s === 1 ? 0 : at(scaling?.centre ?? NOWHERE, i) * (1 - s);
  }
  if (rotation !== null && !whole) turnIn(rotation, m, t);
  // Columns times the factors first, then rows times the mirror: p = Mirror · Rotation · Scale.
  for (let i = 0; i < 3; i++) {
    const line = mirror[i] ?? null;
    // A mirror line that is not known may be no mirror at all (after a join).
    const sign = line === null ? 1 : Number.isNaN(line) ? Number.NaN : -1;
    for (let j = 0; j < 3; j++) {
      const r = at(m, 3 * i + j);
      back[3 * j + i] = r === 0 ? 0 : (sign * r) / at(factor, j);
      m[3 * i + j] = r === 0 ? 0 : sign * r * at(factor, j);
    }
    if (line !== null) t[i] = 2 * line - (t[i] ?? 0);
  }
  if (rotation?.inSpace === true) {
    m.fill(Number.NaN);
    back.fill(Number.NaN);
    t.fill(Number.NaN);
  }
  const codes = [
    ...(plain ? [] : ["G51"]),
    ...(whole ? [] : ["G68"]),
    ...(mirror.every((line) => line === null) ? [] : ["G51.1"]),
  ];
  return { scaling, rotation, mirror, m, t, back, codes: codes.join(" and "), ...told(scaling, rotation, mirror) };
}

function turnIn(rotation: Rotation, m: Float64Array, t: [number, number, number]): void {
  const [u, v] = PLANES[rotation.plane];
  const [cos, sin] = turn(rotation.angle);
  m[3 * u + u] = cos;
  m[3 * u + v] = -sin;
  m[3 * v + u] = sin;
  m[3 * v + v] = cos;
  const du = t[u] - rotation.u;
  const dv = t[v] - rotation.v;
  t[u] = rotation.u + cos * du - sin * dv;
  t[v] = rotation.v + sin * du + cos * dv;
}

function told(scaling: Scaling | null, rotation: Rotation | null, mirror: Mirror): { why: string; key: string } {
  let why = "";
  if (scaling?.factor.some(Number.isNaN)) why = "a factor of G51 is not known";
  else if (scaling?.centre.some((c, i) => Number.isNaN(c) && scaling.factor[i] !== 1))
    why = "the centre of G51 is not known";
  else if (rotation?.inSpace === true) why = "G68 with I, J or K turns about a line in space, which is not followed";
  else if (rotation !== null && Number.isNaN(rotation.angle)) why = "the angle of G68 is not known";
  else if (rotation !== null && Number.isNaN(rotation.u + rotation.v)) why = "the centre of G68 is not known";
  else if (mirror.some((line) => line !== null && Number.isNaN(line))) why = "the mirror line of G51.1 is not known";
  return { why, key: JSON.stringify([scaling, rotation, mirror], (_, v: unknown) => (Number.isNaN(v) ? "?" : v)) };
}

export const startPolar = (plane: 17 | 18 | 19): Polar => ({
  plane,
  radius: Number.NaN,
  angle: Number.NaN,
  pole: [0, 0],
  unsure: false,
});

/** Whether the words of a block mean something else than positions or increments as written. */
export function intervenes(state: TransformState): boolean {
  return state.transform !== null || state.polar !== null || state.doubt !== 0;
}

/** The program number of an axis at a position. */
export function readingOf(transform: Transform | null, pos: ArrayLike<number>, axis: number): number {
  if (transform === null) return at(pos, axis);
  let q = 0;
  for (let k = 0; k < 3; k++) {
    const b = at(transform.back, 3 * axis + k);
    if (b !== 0) q += b * (at(pos, k) - at(transform.t, k));
  }
  return q;
}

/** A direction or length given beside a position (arc centre, shift): turned and scaled, but not moved. */
export function directed(transform: Transform | null, x: number, y: number, z: number): [number, number, number] {
  if (transform === null) return [x, y, z];
  const given = [x, y, z];
  const row = (i: number): number => {
    let sum = 0;
    for (let j = 0; j < 3; j++) {
      const c = at(transform.m, 3 * i + j);
      if (c !== 0 && given[j] !== 0) sum += c * at(given, j);
    }
    return sum;
  };
  return [row(0), row(1), row(2)];
}

/** Signed area factor of a plane: negative where circles run the other way round. */
export function areaFactor(transform: Transform | null, u: number, v: number): number {
  if (transform === null) return 1;
  const { m } = transform;
  return at(m, 3 * u + u) * at(m, 3 * v + v) - at(m, 3 * u + v) * at(m, 3 * v + u);
}

/** Whether a height along an axis is what the program says: nothing scales, mirrors or turns it. */
export function heightKept(transform: Transform | null, w: number): boolean {
  if (transform === null) return true;
  const { m, t } = transform;
  for (let i = 0; i < 3; i++) if (i !== w && (at(m, 3 * w + i) !== 0 || at(m, 3 * i + w) !== 0)) return false;
  return at(m, 4 * w) === 1 && t[w as 0 | 1 | 2] === 0;
}

export function sameTransforms(a: TransformState, b: TransformState): boolean {
  if (a.transform?.key !== b.transform?.key || a.doubt !== b.doubt) return false;
  const [p, q] = [a.polar, b.polar];
  if ((p === null) !== (q === null) || (a.written === null) !== (b.written === null)) return false;
  if (p !== null && q !== null) {
    if (p.plane !== q.plane || p.unsure !== q.unsure) return false;
    if (!Object.is(p.radius, q.radius) || !Object.is(p.angle, q.angle)) return false;
    if (!Object.is(p.pole[0], q.pole[0]) || !Object.is(p.pole[1], q.pole[1])) return false;
  }
  return a.written === null || a.written.every((value, axis) => Object.is(value, b.written?.[axis]));
}

/** Two ways of the program meet: what differs between them is not known from here. */
export function joinTransforms(state: TransformState, other: TransformState): void {
  const unknown = (a: number, b: number): number => (Object.is(a, b) ? a : Number.NaN);
  const [a, b] = [state.transform, other.transform];
  if (a?.key !== b?.key) {
    const none: Scaling = { centre: [0, 0, 0], factor: [1, 1, 1] };
    const [s, r] = [a?.scaling ?? none, b?.scaling ?? none];
    const both = (p: Triple, q: Triple): Triple => [unknown(p[0], q[0]), unknown(p[1], q[1]), unknown(p[2], q[2])];
    const mirrored = ([0, 1, 2] as const).map((axis) => {
      const [p, q] = [a?.mirror[axis] ?? null, b?.mirror[axis] ?? null];
      return p === q ? p : Number.NaN;
    });
    const turned = a?.rotation ?? b?.rotation ?? null;
    // Turned in another plane each time, every axis may have moved.
    const inSpace =
      turned?.inSpace === true || (a?.rotation?.plane ?? turned?.plane) !== (b?.rotation?.plane ?? turned?.plane);
    const same = JSON.stringify(a?.rotation ?? null) === JSON.stringify(b?.rotation ?? null);
    state.transform = makeTransform(
      { centre: both(s.centre, r.centre), factor: both(s.factor, r.factor) },
      same || turned === null ? turned : { ...turned, u: Number.NaN, v: Number.NaN, angle: Number.NaN, inSpace },
      [mirrored[0] ?? null, mirrored[1] ?? null, mirrored[2] ?? null],
    );
  }
  const [p, q] = [state.polar, other.polar];
  if (p === null || q === null) {
    const on = p ?? q;
    state.polar = on === null ? null : { ...on, unsure: true };
  } else
    state.polar = {
      plane: p.plane,
      radius: unknown(p.radius, q.radius),
      angle: unknown(p.angle, q.angle),
      pole: [unknown(p.pole[0], q.pole[0]), unknown(p.pole[1], q.pole[1])],
      // No angle yet and an angle that is not known are two things, and NaN says the first.
      unsure: p.unsure || q.unsure || p.plane !== q.plane || !Object.is(p.angle, q.angle),
    };
  state.doubt |= other.doubt;
  state.written = null;
}
