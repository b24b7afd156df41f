/** The front of a drill as the engagement sees it: a straight edge from the axis to the corner. */
import { pointLength } from "../kinematics.ts";

export type DrillKind = "two-insert" | "two-lip";

export interface DrillFront {
  readonly kind: DrillKind;
  /** mm */
  readonly R: number;
  /** Height of the edge above the tip per mm of radius; 0 for a flat front. */
  readonly slope: number;
  /** Outer radius of the centre zone, mm. */
  readonly centre: number;
}

/**
 * @param kind two-insert: centre and peripheral insert, one effective edge; two-lip: twist, solid carbide, spade
 * @param DC mm
 * @param SIG point angle, degrees; null: 180 for two-insert, 118 for two-lip (common practice, no source)
 * @param PL tip to corner, mm; wins over SIG; null: from SIG
 * @param r1 boundary of the inserts, mm; null: R / 2 (common practice, no source)
 */
export function drillFront(
  kind: DrillKind,
  DC: number,
  SIG: number | null,
  PL: number | null = null,
  r1: number | null = null,
): DrillFront {
  const R = DC / 2;
  const point = PL ?? pointLength(DC, SIG ?? (kind === "two-insert" ? 180 : 118));
  const centre = kind === "two-insert" && r1 !== null && r1 > 0 && r1 < R ? r1 : R / 2;
  return { kind, R, slope: point / R, centre };
}
