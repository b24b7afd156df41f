/** Coolant that a drill asks for. Guides are common practice, no source; the tool's own data always wins. */

/**
 * Flow for a two-insert drill, L/min: 0.9 · D to 3xD, half as much again from 4xD, between them straight. Common
 * practice, no source.
 * @param DC mm
 * @param depthRatio hole depth over diameter
 */
export function recommendedFlow(DC: number, depthRatio: number): number {
  return 0.9 * DC * depthFactor(depthRatio);
}

/** 1 to 3xD, 1.5 from 4xD, straight between. */
function depthFactor(depthRatio: number): number {
  return 1 + 0.5 * Math.min(1, Math.max(0, depthRatio - 3));
}

/** D mm, pressure low and high bar, flow low and high L/min. Common practice, no source; horizontal spindle, 3xD. */
const GUIDE: readonly (readonly [number, number, number, number, number])[] = [
  [15, 10, 15, 10, 10],
  [20, 8, 12, 15, 20],
  [30, 6, 10, 25, 30],
  [50, 4, 6, 40, 60],
];

export interface CoolantGuide {
  /** bar */
  readonly pressure: { readonly low: number; readonly high: number };
  /** L/min */
  readonly flow: { readonly low: number; readonly high: number };
}

export interface CoolantCase {
  /** mm */
  readonly DC: number;
  readonly depthRatio: number;
  /** The spindle points down: chips pack, half as much pressure again. */
  readonly verticalDown: boolean;
  /** Stainless steel: twice the pressure. */
  readonly stainless: boolean;
}

/**
 * Pressure and flow guide for insert drills by diameter, straight between the listed diameters, held beyond them.
 * Pressure is raised by half for 4-5xD or a vertical-down spindle and doubled for stainless. Common practice, no
 * source.
 */
export function coolantGuide(use: CoolantCase): CoolantGuide {
  const deep = depthFactor(use.depthRatio);
  const raise = Math.max(deep, use.verticalDown ? 1.5 : 1) * (use.stainless ? 2 : 1);
  const at = (column: 1 | 2 | 3 | 4): number => guideAt(use.DC, column);
  return {
    pressure: { low: at(1) * raise, high: at(2) * raise },
    flow: { low: at(3) * deep, high: at(4) * deep },
  };
}

function guideAt(DC: number, column: 1 | 2 | 3 | 4): number {
  let before = GUIDE[0];
  if (before === undefined) return 0;
  if (DC <= before[0]) return before[column];
  for (const row of GUIDE) {
    if (DC <= row[0]) {
      const t = row[0] === before[0] ? 0 : (DC - before[0]) / (row[0] - before[0]);
      return before[column] + t * (row[column] - before[column]);
    }
    before = row;
  }
  return before[column];
}

/**
 * Hydraulic power, kW: p · Q / 600. Derived.
 * @param pressure bar
 * @param flow L/min
 */
export function hydraulicPower(pressure: number, flow: number): number {
  return (pressure * flow) / 600;
}
