/** Loads of one hole shape, as bands with limits and with the arithmetic as data. */
import type { EntryForm } from "../../grammar/entry.ts";
import type { HoleShape } from "../program/types.ts";
import type { Tool, WorkMaterial } from "../setup/types.ts";
import type { Quantity } from "../units/quantities.ts";

/** An estimate. low <= nominal <= high, all finite, in the base unit. */
export interface Band {
  readonly low: number;
  readonly nominal: number;
  readonly high: number;
}

/** A value that may be unknown: then the reason stands in its place. */
export type Known<T> = { readonly known: true; readonly value: T } | { readonly known: false; readonly why: string };

export interface DerivationInput {
  readonly symbol: string;
  readonly value: number;
  readonly quantity: Quantity | null;
  /** Provenance as a person reads it: `F250. in block 14`, `swarfline.yaml line 12`, `common practice`. */
  readonly from: string;
}

/** The arithmetic as data: hover, explain, sheet and docs print the same one. */
export interface Derivation {
  /** Stable id of the formula: `kienzle-torque`. */
  readonly formula: string;
  /** What it gives, in words: `torque at the drill`. */
  readonly title: string;
  /** With symbols: `M = D² · f · kc / 8000`. */
  readonly expression: string;
  readonly inputs: readonly DerivationInput[];
  readonly result: { readonly symbol: string; readonly value: number; readonly quantity: Quantity | null };
  readonly band: Band | null;
  /** Named source with its mark. */
  readonly source: string;
  /** Notes: `below the model's range`, `wear 1.0/1.15/1.3`. */
  readonly notes: readonly string[];
  /** Derivations of inputs that were themselves computed. */
  readonly steps: readonly Derivation[];
}

export type EngagementClass = "none" | "light" | "medium" | "heavy" | "extreme";

export interface EngagementSample {
  /** Tip height in the WCS, mm. */
  readonly z: number;
  readonly area: number;
  readonly rim: number;
  readonly voidArc: number;
  readonly core: number;
  readonly imbalance: number;
  /** Normalised side force s. */
  readonly side: number;
  /** Times per turn that the rim enters metal. */
  readonly entries: number;
}

/** A stretch of depth over which some radius is in metal for part of the turn only, with the margin for its feed. */
export interface EngagementZone {
  readonly fromZ: number;
  readonly toZ: number;
  readonly class: EngagementClass;
  /** At the first contact, where the drill leaves the metal, or between. */
  readonly where: "entry" | "inside" | "exit";
  /** mm/rev for this class; null as for the whole. */
  readonly allowedFeed: number | null;
  readonly allowedWhy: string;
  /** Axial length over which less than half of the centre zone is in metal, mm. */
  readonly coreAir: number;
  /** No interruption of the turn: the drill passes from one plate into the next, with or without air between them. */
  readonly joint?: "touching" | "gap";
}

/** What of a ring of the drill is in metal: arcs from, to, from, to … in radians from the first coordinate axis. */
export interface EngagedRing {
  readonly fromR: number;
  readonly toR: number;
  readonly arcs: readonly number[];
}

export interface Engagement {
  /** What the drill enters, as told or as the stock and earlier holes come to; null: none of the forms that have words. */
  readonly form: EntryForm | null;
  readonly source: "flat" | "note" | "entry" | "stock";
  readonly class: EngagementClass;
  /** Skin rather than geometry rules the feed. */
  readonly skin: boolean;
  /** mm/rev; null: no window, or the family must not. */
  readonly allowedFeed: number | null;
  /** Why allowedFeed is null, or what shaped it: `floor of the edge`, `common practice`. */
  readonly allowedWhy: string;
  /** What the family table says beyond a feed: `mill flat first`. Empty: nothing. */
  readonly advice: string;
  /** The table or the tool's own data forbids this entry; `error` only from the tool's data or the table's error cells. */
  readonly forbidden: "no" | "warning" | "error";
  readonly share: number | null;
  readonly firstContactZ: number;
  readonly fullZ: number;
  readonly zones: readonly EngagementZone[];
  /** Heights of the tip between metal above and metal below. */
  readonly gaps: readonly { readonly fromZ: number; readonly toZ: number }[];
  /** The most metal cut at once: its share of the area and the highest tip position that has it. Loads stand for it. */
  readonly most: { readonly z: number; readonly area: number };
  /** Where a note or the setup tells the entry: the class that the declared stock comes to; null: none to compare. */
  readonly byPart: EngagementClass | null;
  /** The front of the drill that all this was worked out for. */
  readonly front: {
    readonly kind: "two-insert" | "two-lip";
    /** mm */
    readonly R: number;
    /** Outer radius of the centre zone, mm. */
    readonly centre: number;
  };
  /** Seen along the drill with the tip at a height. @param rings how many the front is cut into */
  plan(z: number, rings: number): readonly EngagedRing[];
  readonly worst: EngagementSample;
  /** At the heights the kernel chose. */
  readonly samples: readonly EngagementSample[];
  /** At any height. */
  at(z: number): EngagementSample;
}

export interface LoadLimits {
  /** At the cutter, at the programmed rpm, N·m. */
  readonly torque: { readonly continuous: number; readonly shortTime: number | null } | null;
  /** At the cutter, kW. */
  readonly power: { readonly continuous: number | null; readonly shortTime: number | null };
  /** N */
  readonly thrust: number | null;
  /** 1/min: the lesser of spindle and tool. */
  readonly rpm: number | null;
}

export interface HoleLoads {
  readonly shape: HoleShape;
  readonly tool: Tool | null;
  readonly material: WorkMaterial | null;
  /** Of the first stroke in metal. null unknown (reason in `unknown`). */
  readonly n: number | null;
  readonly f: number | null;
  readonly fz: number | null;
  readonly vf: number | null;
  readonly vc: number | null;
  readonly mrr: number | null;
  readonly feedTimeMin: number | null;
  readonly depthRatio: number | null;
  /** Mean over the turn at full engagement or at the worst zone, whichever is more. */
  readonly torque: Band | null;
  readonly power: Band | null;
  readonly thrust: Band | null;
  /** Peak within the turn in an interrupted cut; equals torque when there is no interruption. */
  readonly peakTorque: Band | null;
  readonly limits: LoadLimits;
  readonly coolant: {
    readonly kinds: readonly string[];
    readonly pressure: number | null;
    readonly flow: number | null;
    /** s between coolant on and first contact; null unknown. */
    readonly leadSeconds: number | null;
  };
  readonly engagement: Engagement | null;
  /** Window of the tool for the material; null none. */
  readonly window: {
    readonly vc: readonly [number, number, number] | null;
    readonly f: readonly [number, number, number] | null;
    readonly origin: string;
  } | null;
  /** mm from tip to corner. */
  readonly pointLength: number | null;
  /** Sideways walk of the drill in the worst zone, mm; null unknown or none. */
  readonly walk: number | null;
  /** Field → reason. */
  readonly unknown: Readonly<Record<string, string>>;
  /** Computed when asked. */
  derive(
    what: "vc" | "n" | "f" | "vf" | "torque" | "power" | "thrust" | "limits" | "allowedFeed" | "pointLength" | "mrr",
  ): Derivation | null;
}
