/** Round steps for an axis: 1, 2 or 5 times a power of ten. */
export interface Axis {
  /** The end of the axis, a whole number of steps. */
  readonly end: number;
  readonly ticks: readonly number[];
}

/**
 * @param max largest value that must fit, any unit; not positive gives an axis to 1
 * @param steps about how many steps are wanted
 */
export function roundAxis(max: number, steps: number): Axis {
  const top = Number.isFinite(max) && max > 0 ? max : 1;
  const rough = top / steps;
  const power = 10 ** Math.floor(Math.log10(rough));
  const step = ([1, 2, 5, 10].find((s) => s * power >= rough * 0.999) ?? 10) * power;
  const count = Math.ceil(top / step - 1e-9);
  const ticks: number[] = [];
  for (let i = 0; i <= count; i++) ticks.push(Number((i * step).toPrecision(12)));
  return { end: count * step, ticks };
}
