/** A solid made ready for many looks: its primitives with all that does not change from look to look. */
import { ALL, Arcs, intersectInto, NONE, SOME, TURN, uniteInto } from "./arcs.ts";
import { type Creases, creasesOf, lineHeights, lineRadii, rimHeights } from "./creases.ts";
import type { DrillFront } from "./drill.ts";
import { Leaf } from "./leaf.ts";
import { leafArcs } from "./leaf-arcs.ts";
import { leafHeights, leafRadii } from "./leaf-breaks.ts";
import { leafSpans } from "./leaf-spans.ts";
import type { Numbers } from "./numbers.ts";
import type { Solid } from "./solids.ts";

/** "not" stands at the primitives only. */
class Node {
  readonly leaf: Leaf | null;
  readonly union: boolean;
  readonly parts: readonly Node[];

  constructor(leaf: Leaf | null, union: boolean, parts: readonly Node[]) {
    this.leaf = leaf;
    this.union = union;
    this.parts = parts;
  }
}

export class Scene {
  readonly root: Node;
  readonly leaves: readonly Leaf[];
  readonly creases: Creases;
  /** The primitives where each of them takes metal away and nothing else is joined; else null. */
  readonly walls: readonly Leaf[] | null;

  constructor(solid: Solid) {
    const leaves: Leaf[] = [];
    this.root = nodeOf(solid, false, leaves);
    this.leaves = leaves;
    this.creases = creasesOf(leaves);
    const { root } = this;
    this.walls = root.leaf !== null || (!root.union && root.parts.every((part) => part.leaf !== null)) ? leaves : null;
  }
}

const NO_PARTS: readonly Node[] = [];

function nodeOf(solid: Solid, negated: boolean, leaves: Leaf[]): Node {
  switch (solid.kind) {
    case "not":
      return nodeOf(solid.part, !negated, leaves);
    case "union":
    case "intersection": {
      const parts = solid.parts.map((part) => nodeOf(part, negated, leaves));
      const only = parts.length === 1 ? parts[0] : undefined;
      return only ?? new Node(null, (solid.kind === "union") !== negated, parts);
    }
    default: {
      const leaf = new Leaf(solid, negated);
      leaves.push(leaf);
      return new Node(leaf, false, NO_PARTS);
    }
  }
}

const scenes = new WeakMap<Solid, Scene>();

/** The scene of a solid, made once. */
export function sceneOf(solid: Solid): Scene {
  let scene = scenes.get(solid);
  if (scene === undefined) {
    scene = new Scene(solid);
    scenes.set(solid, scene);
  }
  return scene;
}

/** One buffer for each level of nesting, and one to work in. Nothing here runs inside itself. */
const levels: Arcs[] = [new Arcs()];
let work = new Arcs();

function swap(depth: number, buffer: Arcs): Arcs {
  const old = levels[depth] as Arcs;
  levels[depth] = buffer;
  return old;
}

/** Where the last look has left what it found. */
export function found(): Arcs {
  return levels[0] as Arcs;
}

/** Arcs of the circle of radius r at height h in the solid: NONE, ALL, or SOME, which are in `found()`. */
export function look(scene: Scene, r: number, h: number): number {
  return lookAt(scene.root, r, h, 0);
}

function lookAt(node: Node, r: number, h: number, depth: number): number {
  if (node.leaf !== null) return leafArcs(node.leaf, r, h, levels[depth] as Arcs);
  // What decides: air in an intersection, metal in a union.
  const decided = node.union ? ALL : NONE;
  const neutral = node.union ? NONE : ALL;
  if (levels.length === depth + 1) levels.push(new Arcs());
  let some = false;
  for (let i = 0; i < node.parts.length; i++) {
    const code = lookAt(node.parts[i] as Node, r, h, depth + 1);
    if (code === decided) return decided;
    if (code === neutral) continue;
    join(node.union, some, depth);
    some = true;
  }
  return some ? SOME : neutral;
}

/** Joins what the level below holds into this one. */
function join(union: boolean, some: boolean, depth: number): void {
  const here = levels[depth] as Arcs;
  const under = levels[depth + 1] as Arcs;
  if (!some) {
    levels[depth + 1] = swap(depth, under);
    return;
  }
  if (union) uniteInto(here, under, work);
  else intersectInto(here, under, work);
  work = swap(depth, work);
}

/**
 * Radii at which the edge in a direction lies in the solid: NONE, ALL, or SOME, which are in `found()`.
 * @param c cosine and
 * @param s sine of the direction
 * @param z height of the tip
 */
export function lookAlong(scene: Scene, c: number, s: number, z: number, front: DrillFront): number {
  return alongNode(scene.root, c, s, z, front, 0);
}

function alongNode(node: Node, c: number, s: number, z: number, front: DrillFront, depth: number): number {
  if (node.leaf !== null) return leafSpans(node.leaf, c, s, z, front.slope, front.R, levels[depth] as Arcs, work);
  const decided = node.union ? ALL : NONE;
  const neutral = node.union ? NONE : ALL;
  if (levels.length === depth + 1) levels.push(new Arcs());
  let some = false;
  for (let i = 0; i < node.parts.length; i++) {
    const code = alongNode(node.parts[i] as Node, c, s, z, front, depth + 1);
    if (code === decided) return decided;
    if (code === neutral) continue;
    join(node.union, some, depth);
    some = true;
  }
  return some ? SOME : neutral;
}

/** Radii at which an arc appears, ends or changes its form, the tip at height z. Unsorted, may lie outside 0 to R. */
export function breakRadii(scene: Scene, z: number, k: number, out: Numbers): void {
  const { leaves, creases } = scene;
  for (let i = 0; i < leaves.length; i++) leafRadii(leaves[i] as Leaf, z, k, out);
  for (const line of creases.lines) lineRadii(line, z, k, out);
  for (let i = 0; i < creases.radii.count; i++) out.push(creases.radii.at[i] as number);
}

/** Tip heights at which tip, zone boundary or corner meet the solid, or the edge touches it. Unsorted. */
export function breakHeights(scene: Scene, front: DrillFront, out: Numbers): void {
  for (const leaf of scene.leaves) leafHeights(leaf, front, out);
  for (const line of scene.creases.lines) lineHeights(line, front, out);
  for (const rim of scene.creases.rims) rimHeights(rim.plane, rim.wall, front, out);
}

/**
 * The part of the circle of radius r at height h that lies in the solid: [from, to, from, to, ...] rising within 0 to 2π.
 * An arc over 0 stands as two.
 * @param r mm, above 0
 */
export function arcsAt(solid: Solid, r: number, h: number): readonly number[] {
  return listOf(look(sceneOf(solid), r, h), TURN);
}

/**
 * Radii, as sorted spans within 0 to R, at which the straight edge in direction phi lies in the solid, the tip at
 * height z.
 */
export function spansAlong(solid: Solid, phi: number, z: number, front: DrillFront): readonly number[] {
  return listOf(lookAlong(sceneOf(solid), Math.cos(phi), Math.sin(phi), z, front), front.R);
}

function listOf(code: number, end: number): readonly number[] {
  if (code === NONE) return [];
  return code === ALL ? [0, end] : Array.from(found().at.subarray(0, found().count));
}
