/**
 * The setup as the rest of the house sees it: resolved for one program, in base units, with the origin of every value.
 * Unknown is `undefined`/`null` with an origin or a finding, never a guess.
 */
import type { EntryForm } from "../../grammar/entry.ts";
import type { UnitSystem } from "../units/quantities.ts";
import type { Dialect } from "./dialect.ts";

/** Lines and columns from 0. */
export interface TextRange {
  readonly line: number;
  readonly column: number;
  readonly endLine: number;
  readonly endColumn: number;
}

/** Where a value comes from, for provenance in hovers, derivations and --print-setup. */
export interface Origin {
  /** `file`: read there · `default`: common practice or built-in table · `comment`: from the program's own comment ·
   *  `option`: given on the command line */
  readonly kind: "file" | "default" | "comment" | "option";
  /** Uri or path of the file; empty for defaults. */
  readonly file: string;
  /** From 0; -1 where there is none. */
  readonly line: number;
  readonly column: number;
  /** The value and its key in that file; absent where it stands in none. */
  readonly range?: TextRange;
  readonly keyRange?: TextRange;
  /** As a person reads it: `swarfline.yaml line 12`, `default, common practice`, `comment in block 4`. */
  readonly text: string;
}

export type IsoGroup = "P" | "M" | "K" | "N" | "S" | "H";

export type DrillFamily =
  | "twist-hss"
  | "solid-carbide"
  | "indexable"
  | "spade"
  | "gun"
  | "spot"
  | "ream"
  | "tap"
  | "countersink"
  | "bore";

export type CoolantKind = "flood" | "mist" | "through" | "air";

/** One point of an envelope: power in kW as the motor's brochure prints it. */
export interface EnvelopePoint {
  readonly rpm: number;
  /** Exactly one of the two is written; the other is derived by power = torque × rpm. */
  readonly torque: number | null;
  readonly power: number | null;
}

export interface Spindle {
  readonly maxRpm: number | null;
  readonly continuous: readonly EnvelopePoint[];
  readonly shortTime: { readonly minutes: number; readonly points: readonly EnvelopePoint[] } | null;
  /** Motor to cutter, 0 to 1. From `efficiency`, or from `drive` by common practice. */
  readonly efficiency: number;
  readonly drive: "direct" | "belt" | "geared" | null;
}

export interface CoolantSupply {
  readonly kind: CoolantKind;
  /** bar; null: not declared. */
  readonly pressure: number | null;
  /** L/min at that pressure; null: not declared. */
  readonly flow: number | null;
}

export interface Machine {
  readonly name: string;
  readonly kind: "mill" | "turn";
  readonly dialect: Dialect;
  readonly spindle: Spindle | null;
  readonly axis: { readonly maxFeed: number | null; readonly rapid: number | null; readonly thrust: number | null };
  /** M code as text (`M8`, `M88`) → supply. Codes that the machine declares beyond the dialect's own. */
  readonly coolant: ReadonlyMap<string, CoolantSupply>;
  /** s */
  readonly toolChange: number | null;
  /** per hour, in the shop's currency */
  readonly rate: number | null;
  /** Path of this machine in the setup, for `origins`: `machines.vmc`. */
  readonly path: string;
}

/** Speed and feed the tool is made for in one material or group. vc in m/min, f in mm/rev, [min, nominal, max]. */
export interface Window {
  readonly group: IsoGroup | null;
  readonly material: string | null;
  readonly vc: readonly [number, number, number] | null;
  readonly f: readonly [number, number, number] | null;
}

/** What the tool's own data says about interrupted entries: wins over every default. */
export interface EntryData {
  /** Steepest incline the tool may enter, degrees. */
  readonly maxIncline: number | null;
  /** Feed share declared for the class, 0 to 1. */
  readonly light: number | null;
  readonly medium: number | null;
  readonly heavy: number | null;
  readonly extreme: number | null;
  /** Smallest feed at which the edge still cuts, mm/rev. */
  readonly fMin: number | null;
}

export interface Observed {
  readonly program: string;
  readonly operation: number;
  /** Load meter in percent of the rating it refers to. */
  readonly load: number;
  readonly idle: number;
  readonly meter: "continuous" | "short-time";
  readonly wear: "new" | "worn";
  /** For a message or a derivation. */
  readonly path: string;
}

/** A drill, by ISO 13399 symbols. Lengths in mm, angles in degrees. null: not declared. */
export interface Tool {
  readonly T: number;
  readonly name: string | null;
  readonly family: DrillFamily;
  /** True when the family was not declared but taken from a comment or by default. */
  readonly familyAssumed: boolean;
  readonly DC: number;
  readonly SIG: number | null;
  readonly LU: number | null;
  /** Tip to corner along the axis. */
  readonly PL: number | null;
  readonly NOF: number | null;
  readonly ZEFP: number | null;
  readonly KAPR: number | null;
  readonly RPMX: number | null;
  readonly hand: "right" | "left";
  /** Rake by common practice: light +12, general +6, strong 0 degrees. */
  readonly edge: "light" | "general" | "strong" | null;
  /** Chisel edge by common practice: standard c/d 0.18, split 0.03. */
  readonly point: "standard" | "split" | null;
  /** Boundary between centre and peripheral insert, mm from the axis; null: R/2 by common practice. */
  readonly r1: number | null;
  readonly coolant: "through" | "external" | "dry" | null;
  /** Least pressure (bar) and flow (L/min) the tool asks for. */
  readonly minPressure: number | null;
  readonly minFlow: number | null;
  /** Taps: lead in mm. */
  readonly lead: number | null;
  /** H numbers allowed for this tool; empty: its T number. */
  readonly H: readonly number[];
  readonly windows: readonly Window[];
  readonly entry: EntryData;
  readonly price: number | null;
  readonly edges: number | null;
  readonly holesPerEdge: number | null;
  readonly observed: readonly Observed[];
  /** Path of this tool in the setup, for `origins`: `tools.crib.T3`; for comment tools `comment.T3`. */
  readonly path: string;
  /** DC came from a comment of the program: marked "assumed" wherever it is shown. */
  readonly assumed: boolean;
}

/** Which published line of Kienzle values a row belongs to; they must not be mixed (engineering dossier 2.6). */
export type KienzleLine = "victor" | "koenig" | "group-average" | "own";

export interface KienzleValues {
  /** N/mm² */
  readonly kc11: number;
  readonly mc: number;
  readonly line: KienzleLine;
  /** Named source, with whether it was read or remembered. */
  readonly source: string;
  readonly evidence: "read" | "read-secondary" | "memory" | "practice" | "shop";
}

export interface WorkMaterial {
  readonly key: string;
  readonly group: IsoGroup;
  /** Further designations: W.-Nr., AISI/UNS, older names. */
  readonly designations: readonly string[];
  readonly condition: string;
  readonly kienzle: readonly KienzleValues[];
  /** Brinell, for the handbook method; null unknown. */
  readonly hardnessHB: number | null;
  /** Family for the handbook's work-material factor. */
  readonly handbookKind: string | null;
  readonly combustible: "magnesium" | "titanium" | null;
  readonly path: string;
}

export type Vec3 = readonly [number, number, number];
export interface CutPlane {
  readonly through: Vec3;
  /** The side the normal points away from is kept. */
  readonly normal: Vec3;
  /** Path of the form that made it: `….solids[0].face[0]`. */
  readonly path: string;
}

interface StockBody {
  readonly cut: readonly CutPlane[];
  /** Path of the form that made it, for `origins` and findings: `….solids[0].box`, `….voids[2].slot`. */
  readonly path: string;
}

export interface StockBox extends StockBody {
  readonly kind: "box";
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly z: readonly [number, number];
}

export interface StockCylinder extends StockBody {
  readonly kind: "cylinder";
  /** A direction has length 1 and lies along none of the axes. */
  readonly axis: "x" | "y" | "z" | Vec3;
  /** A point of the axis. */
  readonly through: Vec3;
  readonly diameter: number;
  /** From and to: the coordinate along x, y or z; along a direction the distance from `through`. */
  readonly span: readonly [number, number];
}

export type StockSolid = StockBox | StockCylinder;

/** Hard, uneven outside of a casting or forging. */
export interface Skin {
  readonly thickness: number;
  /** `top`: the faces that look up in Z only. */
  readonly on: "top" | "all";
}

export interface Stock {
  readonly wcs: string;
  readonly solids: readonly StockSolid[];
  readonly voids: readonly StockSolid[];
  readonly skin: Skin | null;
}

export interface EntryDeclaration {
  readonly program: string;
  readonly tool: number | null;
  readonly wcs: string | null;
  /** Position square to the drill axis, mm; null: every hole of that tool. */
  readonly at: readonly [number, number] | null;
  readonly region: { readonly x: readonly [number, number]; readonly y: readonly [number, number] } | null;
  readonly form: EntryForm;
  readonly exit: EntryForm | null;
  readonly path: string;
}

export interface Workpiece {
  readonly name: string;
  readonly materialKey: string | null;
  readonly hardnessHB: number | null;
  /** As written: `290 HB`. */
  readonly hardnessText: string | null;
  readonly workOffsets: ReadonlyMap<string, Vec3>;
  readonly stock: Stock | null;
  readonly entries: readonly EntryDeclaration[];
  readonly path: string;
}

export type Severity = "error" | "warning" | "info" | "off";

/** Feed shares and levels of shop practice that a shop may change in its setup (`practice:`). */
export interface Practice {
  /** share[class][family column]; null: this family must not. */
  readonly share: {
    readonly [C in "light" | "medium" | "heavy" | "extreme" | "skin"]: {
      readonly [F in "indexable" | "solid-carbide" | "twist-hss" | "spade"]: number | null;
    };
  };
}

/** A problem in a setup file or a tool table, at its place in that file. */
export interface SetupProblem {
  readonly file: string;
  readonly severity: "error" | "warning" | "info";
  readonly range: TextRange;
  /** What was found and what was expected. */
  readonly message: string;
  /** Setup path of what is wrong; absent where it is the file itself. */
  readonly path?: string;
  /** It stands in a part that the program at hand does not use, and weighs one step less for it. */
  readonly unused?: boolean;
}

/** The setup in force for one program. */
export interface ResolvedSetup {
  /** Uri or path of the setup file; null: none found. */
  readonly file: string | null;
  readonly units: UnitSystem;
  readonly machine: Machine | null;
  readonly dialect: Dialect;
  /** By T number. Tools that only a comment names are not here: the program room adds them. */
  readonly tools: ReadonlyMap<number, Tool>;
  /** A tool table was declared for this program (an unknown T is then a finding). */
  readonly hasToolTable: boolean;
  /** Tools that stand in the table but cannot be calculated with: T → why. */
  readonly brokenTools?: ReadonlyMap<number, string>;
  readonly workpiece: Workpiece | null;
  readonly material: WorkMaterial | null;
  /** Materials of the shop's own (`materials:`), for a cut note that names one. */
  readonly materials?: readonly WorkMaterial[];
  /** Patterns of files that hold called programs, relative to the setup file; `*` is the number. */
  readonly subprograms?: readonly string[];
  readonly severity: ReadonlyMap<string, Severity>;
  readonly practice: Practice;
  /** Setup path → origin; paths as in `Tool.path` + `.DC` and so on. */
  readonly origins: ReadonlyMap<string, Origin>;
  readonly problems: readonly SetupProblem[];
  /** Setup path → why its value is unknown, where a broken value left a hole. */
  readonly unknown: ReadonlyMap<string, string>;
}

/** Files by uri/path as they were read; the setup never reads a file itself. */
export type Sources = ReadonlyMap<string, string>;
