/** Gauss-Legendre rules for one panel, the middle first: it tells whether the panel is the same all over. */

export interface Rule {
  readonly points: number;
  /** Places within the panel, 0 to 1, and weights. */
  readonly at: Float64Array;
  readonly weight: Float64Array;
  /** Of each point, by how much its value counts in the four highest Legendre coefficients known, the highest last. */
  readonly high: Float64Array;
}

/**
 * The arcs begin and end like a square root at the ends of a panel; u = sin²(πt/2) takes that away, so that few points
 * are enough.
 * @param nodes 0 and the positive ones, on -1 to 1 (Abramowitz and Stegun, table 25.4, from memory; proved by the tests)
 */
function ruleOf(nodes: readonly number[], weights: readonly number[]): Rule {
  const points = 2 * nodes.length - 1;
  const at = new Float64Array(points);
  const weight = new Float64Array(points);
  const high = new Float64Array(4 * points);
  for (let i = 0; i < points; i++) {
    const x = (i % 2 === 1 ? -1 : 1) * (nodes[(i + 1) >> 1] as number);
    const w = (weights[(i + 1) >> 1] as number) / 2;
    const t = (1 + x) / 2;
    at[i] = Math.sin((Math.PI / 2) * t) ** 2;
    weight[i] = w * (Math.PI / 2) * Math.sin(Math.PI * t);
    for (let j = 0; j < 4; j++) {
      const n = points - 4 + j;
      high[4 * i + j] = n < 0 ? 0 : (2 * n + 1) * w * legendre(n, x);
    }
  }
  return { points, at, weight, high };
}

function legendre(n: number, x: number): number {
  let before = 0;
  let here = 1;
  for (let k = 0; k < n; k++) [before, here] = [here, ((2 * k + 1) * x * here - k * before) / (k + 1)];
  return here;
}

export const FIVE = ruleOf(
  [0, 0.538469310105683, 0.906179845938664],
  [0.568888888888889, 0.478628670499366, 0.236926885056189],
);
export const SEVEN = ruleOf(
  [0, 0.405845151377397, 0.741531185599394, 0.949107912342759],
  [0.417959183673469, 0.381830050505119, 0.279705391489277, 0.12948496616887],
);
export const THREE = ruleOf([0, 0.774596669241483], [0.888888888888889, 0.555555555555556]);
