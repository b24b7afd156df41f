/**
 * What the drawing says about a hole's entry and exit, as written in a cut note or under `entries:` of a setup.
 * One small language for both: `INCLINE 30 DEG`, `EDGE AREA 30 PCT`, `EDGE AXIS IN 3.5`, `EDGE AXIS OUT 4.`,
 * `RIDGE FLANK 30 DEG OFFSET 2.`, `CYLINDER D120 CONVEX`, `CYLINDER D120 CONCAVE OFFSET 4.`, `SKIN`, `FLAT`,
 * `CHAIN PITCH 15.` (a neighbour of the same diameter already drilled), `WEB PITCH 15.` (a neighbour on both sides).
 * Lengths are in the unit of the text they stand in; here they are mm.
 */
export type EntryForm =
  | { readonly kind: "flat" }
  /** Angle from a face square to the drill, 0 < angleDeg < 90. */
  | { readonly kind: "incline"; readonly angleDeg: number }
  /** Share of the hole's area that is in metal, 0 < areaShare < 1. */
  | { readonly kind: "edge-area"; readonly areaShare: number }
  /** Distance of the drill axis from a straight edge, mm; positive when the axis is over metal. */
  | { readonly kind: "edge-axis"; readonly insideMm: number }
  /** A ridge whose flanks fall away at flankDeg on both sides; offsetMm of the axis from the crest. */
  | { readonly kind: "ridge"; readonly flankDeg: number; readonly offsetMm: number }
  /** A cylinder across the drill axis. */
  | {
      readonly kind: "cylinder";
      readonly diameterMm: number;
      readonly shape: "convex" | "concave";
      readonly offsetMm: number;
    }
  /** Cast or forged skin. */
  | { readonly kind: "skin" }
  /** One (chain) or two opposite (web) equal holes already drilled at this pitch. */
  | { readonly kind: "chain"; readonly pitchMm: number; readonly sides: 1 | 2 };

export type CutNote =
  | { readonly kind: "entry"; readonly form: EntryForm }
  | { readonly kind: "exit"; readonly form: EntryForm }
  | { readonly kind: "material"; readonly name: string; readonly hardness: string | null }
  | {
      readonly kind: "allow";
      readonly check: string;
      readonly upTo: string;
      readonly by: string;
      readonly because: string;
    };
