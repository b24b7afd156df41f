/** A primitive made ready for many looks: what does not change from look to look is worked out once. */
import type { Primitive } from "./solids.ts";

export const HALF_SPACE = 0;
export const ALONG = 1;
export const ACROSS = 2;
export const DRILLED = 3;
export const OBLIQUE = 4;

/** Directions nearer to the drill axis, or to square to it, than this count as along or across. */
const STRAIGHT = 1e-9;

/** One class for all kinds, so that what reads it stays fast; a field that a kind does not use is 0. */
export class Leaf {
  type = HALF_SPACE;
  /** Air where the primitive is. */
  readonly negated: boolean;
  /** Direction around which the arc of a half-space or an upright cylinder lies: half a turn on where negated. */
  middle = 0;
  ux = 1;
  uy = 0;
  /** Half-space: length of the level part of its normal. Upright: distance of the axis. Across: offset of the axis. */
  q = 0;
  nx = 0;
  ny = 0;
  nz = 0;
  d = 0;
  x = 0;
  y = 0;
  /** Across: height of the axis. Drilled: height of the tip. Oblique: of the point of the axis. */
  z = 0;
  radius = 0;
  /** Drilled: 1 open upwards, -1 downwards; tip to corner; radius per height of the cone. */
  up = 1;
  point = 0;
  flare = 0;
  /** Oblique: unit vector of the axis, dz above 0. */
  dx = 0;
  dy = 0;
  dz = 0;

  constructor(primitive: Primitive, negated: boolean) {
    this.negated = negated;
    switch (primitive.kind) {
      case "half-space":
        this.halfSpace(primitive, negated);
        return;
      case "along":
        this.upright(ALONG, primitive, negated);
        return;
      case "drilled":
        this.upright(DRILLED, primitive, negated);
        this.z = primitive.tip;
        this.up = primitive.down ? -1 : 1;
        this.point = primitive.point;
        this.flare = primitive.point > 0 ? primitive.radius / primitive.point : 0;
        return;
      case "across":
        this.across(primitive.square, primitive.offset, primitive.z, primitive.radius);
        return;
      case "oblique":
        this.oblique(primitive);
    }
  }

  private halfSpace(plane: Extract<Primitive, { kind: "half-space" }>, negated: boolean): void {
    // The other side of a plane is a half-space too.
    const side = negated ? -1 : 1;
    this.nx = side * plane.nx;
    this.ny = side * plane.ny;
    this.nz = side * plane.nz;
    this.d = side * plane.d;
    this.q = Math.hypot(this.nx, this.ny);
    this.turn(-this.nx, -this.ny);
  }

  private upright(type: number, at: { x: number; y: number; radius: number }, negated: boolean): void {
    this.type = type;
    this.x = at.x;
    this.y = at.y;
    this.radius = at.radius;
    this.q = Math.hypot(at.x, at.y);
    const side = negated ? -1 : 1;
    this.turn(side * at.x, side * at.y);
  }

  private across(square: number, offset: number, z: number, radius: number): void {
    this.type = ACROSS;
    this.turn(Math.cos(square), Math.sin(square));
    this.q = offset;
    this.z = z;
    this.radius = radius;
  }

  private oblique(cylinder: Extract<Primitive, { kind: "oblique" }>): void {
    const [x, y, z] = cylinder.through;
    const [vx, vy, vz] = cylinder.dir;
    const w = Math.hypot(vx, vy, vz) * (vz < 0 ? -1 : 1);
    const level = Math.hypot(vx, vy);
    if (level <= STRAIGHT * Math.abs(w)) {
      this.upright(ALONG, { x, y, radius: cylinder.radius }, this.negated);
      return;
    }
    if (Math.abs(vz) <= STRAIGHT * Math.abs(w)) {
      const square = Math.atan2(vx, -vy);
      this.across(square, x * Math.cos(square) + y * Math.sin(square), z, cylinder.radius);
      return;
    }
    this.type = OBLIQUE;
    this.dx = vx / w;
    this.dy = vy / w;
    this.dz = vz / w;
    this.x = x;
    this.y = y;
    this.z = z;
    this.radius = cylinder.radius;
    this.turn(this.dx, this.dy);
  }

  private turn(x: number, y: number): void {
    const length = Math.hypot(x, y);
    if (!(length > 0)) return;
    this.ux = x / length;
    this.uy = y / length;
    const angle = Math.atan2(y, x);
    this.middle = angle < 0 ? angle + 2 * Math.PI : angle;
  }

  /** Radius of an upright cylinder at height h. */
  radiusAt(h: number): number {
    if (this.type === ALONG) return this.radius;
    const above = this.up * (h - this.z);
    if (above <= 0) return 0;
    return above >= this.point ? this.radius : this.flare * above;
  }
}
