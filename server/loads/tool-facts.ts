/**
 * What the loads need to know of a drill, with the defaults of common practice where the tool table is silent. Every
 * fact knows where it comes from; a default says so.
 */
import { CHISEL_RATIO } from "../mechanics/handbook.ts";
import { edgeRake } from "../mechanics/kienzle.ts";
import * as kinematics from "../mechanics/kinematics.ts";
import type { DrillFamily, Tool } from "../setup/types.ts";
import { known, unknown } from "./known.ts";
import { COMMON_PRACTICE } from "./provenance.ts";
import type { Known } from "./types.ts";

/** A number with the field of the tool it was read from; null: a default. */
export interface Fact {
  readonly value: number;
  readonly field: string | null;
  /** Provenance when `field` is null. */
  readonly from: string;
}

const read = (value: number, field: string): Known<Fact> => known({ value, field, from: "" });
const byPractice = (value: number, note = ""): Known<Fact> =>
  known({ value, field: null, from: note === "" ? COMMON_PRACTICE : `${COMMON_PRACTICE}: ${note}` });

/** Effective edges and point angles by family: common practice, no source. */
const EDGES: { readonly [F in DrillFamily]?: number } = {
  "twist-hss": 2,
  "solid-carbide": 2,
  indexable: 1,
  spade: 2,
  gun: 1,
  spot: 2,
  bore: 1,
};

const POINT_ANGLE: { readonly [F in DrillFamily]?: number } = {
  "twist-hss": 118,
  "solid-carbide": 140,
  indexable: 180,
  spade: 130,
  gun: 120,
  bore: 180,
};

/** Tip to corner of a two-insert drill that declares neither PL nor SIG, as a share of D: common practice, no source. */
const NEARLY_FLAT = 0.02;

/**
 * Edges that share the feed of one turn. A centre and a peripheral insert cover the radius once, so a two-insert drill
 * has one (ISO 13399 ZEFP) whatever its count of inserts.
 */
export function effectiveEdges(tool: Tool): Known<Fact> {
  if (tool.ZEFP !== null) return edgeCount(tool, tool.ZEFP, "ZEFP");
  if (tool.family !== "indexable" && tool.NOF !== null) return edgeCount(tool, tool.NOF, "NOF");
  const edges = EDGES[tool.family];
  if (edges === undefined) return unknown(`NOF of T${tool.T} is not declared`);
  return byPractice(edges, edges === 1 ? "one effective edge" : `${edges} edges`);
}

function edgeCount(tool: Tool, count: number, field: string): Known<Fact> {
  return count >= 1 && count <= 100 ? read(count, field) : unknown(`${field} of T${tool.T} is no count of edges`);
}

/** Degrees; smaller is no drill point. */
const SHARPEST_POINT = 10;

/** Degrees, to 180. */
export function pointAngle(tool: Tool): Known<Fact> {
  if (tool.SIG !== null) {
    if (tool.SIG >= SHARPEST_POINT && tool.SIG <= 180) return read(tool.SIG, "SIG");
    return unknown(`no drill has the point angle SIG of T${tool.T}`);
  }
  const angle = POINT_ANGLE[tool.family];
  if (angle === undefined) return unknown(`the point angle SIG of T${tool.T} is not declared`);
  return byPractice(angle);
}

/** No drill point is longer than this times D. */
const LONGEST_POINT = 10;

/** Tip to corner along the axis, mm. */
export function pointLength(tool: Tool): Known<Fact> {
  if (tool.PL !== null && tool.PL > LONGEST_POINT * tool.DC) {
    return unknown(`the point length PL of T${tool.T} is out of all proportion to its diameter`);
  }
  if (tool.PL !== null && tool.PL >= 0) return read(tool.PL, "PL");
  if (tool.family === "indexable" && tool.SIG === null) {
    return byPractice(NEARLY_FLAT * tool.DC, "the front of a two-insert drill is nearly flat; declare PL");
  }
  const angle = pointAngle(tool);
  if (!angle.known) return angle;
  const { value, field, from } = angle.value;
  return known({ value: kinematics.pointLength(tool.DC, value), field, from });
}

/** c/d, chisel edge length over diameter. Solid carbide is ground with a thinned point: split where not declared. */
export function chiselRatio(tool: Tool): Fact {
  if (tool.point !== null) return { value: CHISEL_RATIO[tool.point], field: "point", from: "" };
  const value = tool.family === "solid-carbide" ? CHISEL_RATIO.split : CHISEL_RATIO.standard;
  return { value, field: null, from: COMMON_PRACTICE };
}

/** Rake in degrees; null where a single rake angle means nothing for this family. */
export function rakeAngle(tool: Tool): Fact | null {
  if (tool.edge !== null) return { value: edgeRake(tool.edge), field: "edge", from: "" };
  if (tool.family !== "indexable") return null;
  return { value: edgeRake("general"), field: null, from: `${COMMON_PRACTICE}: edge general` };
}

/** Boundary between centre and peripheral insert, mm from the axis; one that leaves an insert no edge does not count. */
export function insertBoundary(tool: Tool): Fact {
  if (tool.r1 !== null && tool.r1 >= 0.05 * tool.DC && tool.r1 <= 0.45 * tool.DC)
    return { value: tool.r1, field: "r1", from: "" };
  return { value: tool.DC / 4, field: null, from: `${COMMON_PRACTICE}: R/2` };
}

/** Cutting-edge angle κ, degrees: KAPR where declared, else half the point angle. */
export function edgeAngle(tool: Tool): Known<Fact> {
  if (tool.KAPR !== null && tool.KAPR >= SHARPEST_POINT / 2 && tool.KAPR <= 90) return read(tool.KAPR, "KAPR");
  if (tool.KAPR !== null) return unknown(`no drill has the cutting-edge angle KAPR of T${tool.T}`);
  const angle = pointAngle(tool);
  if (!angle.known) return angle;
  return known({ ...angle.value, value: angle.value.value / 2 });
}
