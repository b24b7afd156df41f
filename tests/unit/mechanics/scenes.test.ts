import { describe, expect, it } from "vitest";
import { type DrillFront, drillFront } from "../../../server/mechanics/engagement/drill.ts";
import { engage } from "../../../server/mechanics/engagement/engage.ts";
import { lookFrom, type Measures, measure } from "../../../server/mechanics/engagement/measures.ts";
import { pruned } from "../../../server/mechanics/engagement/prune.ts";
import { Scene } from "../../../server/mechanics/engagement/scene.ts";
import { mirrored, type Solid } from "../../../server/mechanics/engagement/solids.ts";
import { isSteady } from "../../../server/mechanics/engagement/steady.ts";
import { sample } from "./sampler.ts";
import { insideOf, moved, randomFrom, randomSurroundings, type Surroundings, solidOf } from "./scenes.ts";

/** Enough to meet every pair of primitives some dozens of times. */
const SCENES = 2000;
const MEASURES = ["area", "edge", "core", "side", "rim", "voidArc", "imbalance"] as const;
const LIMIT = 1e-3;

interface Case {
  readonly front: DrillFront;
  readonly around: Surroundings;
  readonly z: number;
}

function randomCase(seed: number): Case {
  const random = randomFrom(seed);
  const kind = random() < 0.5 ? "two-insert" : "two-lip";
  const DC = 4 + Math.round(20000 * random()) / 1000;
  const SIG = [90, 118, 140, 165, 180, 180][Math.floor(6 * random())] as number;
  const front = drillFront(kind, DC, SIG, null, ((0.2 + 0.6 * random()) * DC) / 2);
  const around = randomSurroundings(random, front.R);
  const inside = insideOf(around);
  let z = 0;
  // A height at which something is cut and something is not, if there is one: the rest says little.
  for (let i = 0; i < 12; i++) {
    z = (2.5 * random() - 1.8) * front.R;
    let metal = 0;
    for (let j = 0; j < 64; j++) {
      const r = Math.sqrt((j + 0.5) / 64) * front.R;
      if (inside(r * Math.cos(2.4 * j), r * Math.sin(2.4 * j), z + front.slope * r)) metal++;
    }
    if (metal > 0 && metal < 64) break;
  }
  return { front, around, z };
}

describe("random surroundings beside the sampler", () => {
  it(`${SCENES} of them, every measure better than ${LIMIT}`, () => {
    const largest = new Map<string, { error: number; seed: number }>(
      MEASURES.map((name) => [name, { error: 0, seed: 0 }]),
    );
    let cut = 0;
    let again = 0;
    for (let seed = 1; seed <= SCENES; seed++) {
      const { front, around, z } = randomCase(seed);
      const ours = measure(solidOf(around), front, z);
      const inside = insideOf(around);
      let theirs = sample(inside, front, z);
      const apart = (): (typeof MEASURES)[number] | undefined =>
        MEASURES.find((name) => Math.abs(ours[name] - theirs[name]) >= LIMIT);
      if (apart() !== undefined) {
        // What lies whole between two radii of the grid is not seen by it: only a finer one can tell who is right.
        again++;
        theirs = sample(inside, front, z, 16 * 160);
      }
      const bad = apart();
      if (bad !== undefined) throw new Error(`seed ${seed}, ${bad}: ${ours[bad]} and ${theirs[bad]}`);
      if (ours.interrupted) cut++;
      for (const name of MEASURES) {
        const error = Math.abs(ours[name] - theirs[name]);
        if (error > (largest.get(name)?.error ?? 0)) largest.set(name, { error, seed });
      }
      // Where an arc or a gap is narrower than the steps of the corner's circle, the shares differ by it.
      const seen = theirs.narrowest > 4e-4 && Math.abs(ours.rim - theirs.rim) < 1e-6;
      if (seen && ours.entries !== theirs.entries)
        throw new Error(`seed ${seed}, entries: ${ours.entries} and ${theirs.entries}`);
    }
    const row = [...largest].map(([name, { error, seed }]) => `${name} ${error.toExponential(1)} (seed ${seed})`);
    console.log(
      `kernel beside the sampler, ${SCENES} scenes, ${cut} interrupted, ${again} sampled again; largest error:`,
    );
    console.log(row.join(" · "));
    // The scenes are worth something only if most of them interrupt the cut.
    expect(cut).toBeGreaterThan(0.8 * SCENES);
    expect(again).toBeLessThan(SCENES / 100);
  }, 300_000);
});

const alike = (a: Measures, b: Measures, within: number): void => {
  for (const name of MEASURES) {
    if (Math.abs(a[name] - b[name]) >= within) throw new Error(`${name}: ${a[name]} and ${b[name]}`);
  }
};

describe("symmetry", () => {
  it("turned about the axis, all is the same and the side force turns with it", () => {
    for (let seed = 1; seed <= 400; seed++) {
      const { front, around, z } = randomCase(seed);
      const angle = 0.1 + (seed % 60) / 10;
      const here = measure(solidOf(around), front, z);
      const there = measure(solidOf(moved(around, angle, false)), front, z);
      alike(here, there, LIMIT);
      const c = Math.cos(angle);
      const s = Math.sin(angle);
      expect(Math.abs(there.sideX - (c * here.sideX - s * here.sideY))).toBeLessThan(LIMIT);
      expect(Math.abs(there.sideY - (s * here.sideX + c * here.sideY))).toBeLessThan(LIMIT);
      expect(there.entries).toBe(here.entries);
    }
  });

  it("in a mirror, all is the same and the side force comes from the other side", () => {
    for (let seed = 401; seed <= 800; seed++) {
      const { front, around, z } = randomCase(seed);
      const here = measure(solidOf(around), front, z);
      const there = measure(solidOf(moved(around, 0, true)), front, z);
      alike(here, there, LIMIT);
      // The drill turns as before: the mirror image of its force is that of a drill turning the other way.
      expect(Math.abs(there.sideX - here.sideX)).toBeLessThan(LIMIT);
      expect(Math.abs(there.sideY + here.sideY)).toBeLessThan(LIMIT);
    }
  });

  it("turned over, a flat front sees the same from below", () => {
    for (let seed = 801; seed <= 1100; seed++) {
      const { front, around, z } = randomCase(seed);
      const flat = { ...front, slope: 0 };
      const solid = solidOf(around);
      alike(measure(solid, flat, z), measure(mirrored(solid), flat, -z), LIMIT);
    }
  });

  it("what is pruned away made no difference", () => {
    for (let seed = 1101; seed <= 1500; seed++) {
      const { front, around, z } = randomCase(seed);
      const solid = solidOf(around);
      const less = pruned(solid, front.R, z, z + front.slope * front.R);
      alike(measure(solid, front, z), measure(less, front, z), LIMIT);
    }
  });
});

describe("bounds", () => {
  const fronts = [drillFront("two-lip", 20, 118), drillFront("two-lip", 20, 140), drillFront("two-insert", 20, 180)];
  const block = (x: number): Solid =>
    solidOf({ bodies: [{ kind: "box", low: [x, -50, -100], high: [x + 100, 50, 0], cut: [] }], voids: [], holes: [] });

  it.each(fronts)("a whole block is exactly 1: %j", (front) => {
    const deep = measure(block(-50), front, -40);
    expect(deep).toMatchObject({
      area: 1,
      edge: 1,
      core: 1,
      rim: 1,
      voidArc: 0,
      side: 0,
      entries: 0,
      interrupted: false,
    });
    expect(deep.imbalance).toBe(0);
    const curve = engage(block(-50), front, -60);
    expect(curve.zones).toEqual([]);
    expect(curve.at(-40)).toMatchObject({ area: 1, side: 0 });
  });

  it.each(fronts)("far away is exactly 0: %j", (front) => {
    for (const solid of [block(10), block(300)]) {
      const away = measure(solid, front, -40);
      expect(away).toMatchObject({
        area: 0,
        edge: 0,
        core: 0,
        rim: 0,
        voidArc: 1,
        side: 0,
        entries: 0,
        touching: false,
      });
      expect(away.imbalance).toBe(0);
      expect(engage(solid, front, -60)).toMatchObject({ firstContact: null, full: null, zones: [] });
    }
  });

  it("the area only grows while a drill goes into a convex body with nothing below", () => {
    for (let seed = 1; seed <= 300; seed++) {
      const random = randomFrom(seed);
      const front = fronts[seed % 3] as DrillFront;
      const planes = 1 + Math.floor(3 * random());
      // Half-spaces that open downwards: whatever is below a point in metal is metal.
      const parts = Array.from({ length: planes }, (): Solid => {
        const turn = 6.28 * random();
        const tilt = 3 * random();
        return {
          kind: "half-space",
          nx: tilt * Math.cos(turn),
          ny: tilt * Math.sin(turn),
          nz: 1,
          d: 20 * random() - 10,
        };
      });
      const solid: Solid = { kind: "intersection", parts };
      let before = 0;
      for (let z = 40; z >= -60; z -= 1.7) {
        const { area } = measure(solid, front, z);
        expect(area).toBeGreaterThanOrEqual(before - 1e-4);
        before = area;
      }
      expect(before).toBe(1);
    }
  });
});

describe("steady stretches", () => {
  it("are the same at every height of them", () => {
    let steady = 0;
    for (let seed = 3001; seed <= 5000; seed++) {
      const { front, around, z } = randomCase(seed);
      const low = z - 0.3 * front.R;
      const scene = new Scene(pruned(solidOf(around), front.R, low, z + front.slope * front.R));
      if (!isSteady(scene, front, z, low)) continue;
      const top = lookFrom(scene, front, z);
      if (!top.touching) continue;
      steady++;
      for (const part of [0.1, 0.5, 1]) alike(top, lookFrom(scene, front, z - part * (z - low)), 1e-4);
    }
    expect(steady).toBeGreaterThan(100);
  });
});

describe("curves of random surroundings", () => {
  it("leave out no height at which more happens than they say", () => {
    let looked = 0;
    for (let seed = 2001; seed <= 2120; seed++) {
      const { front, around } = randomCase(seed);
      const solid = solidOf(around);
      const [top, bottom] = [2 * front.R, -3 * front.R];
      const curve = engage(solid, front, bottom, top);
      for (let i = 0; i <= 200; i++) {
        const z = top + (i / 200) * (bottom - top);
        const at = measure(solid, front, z);
        const zone = curve.zones.find((one) => z <= one.from + 2e-3 && z >= one.to - 2e-3);
        if (at.touching && curve.firstContact !== null) expect(z).toBeLessThanOrEqual(curve.firstContact + 2e-3);
        if (!at.interrupted || at.area < 1e-3) continue;
        looked++;
        if (zone === undefined) throw new Error(`seed ${seed}: interrupted at ${z}, and no zone there`);
        if (at.side > zone.side + 5e-3) throw new Error(`seed ${seed}: side ${at.side} at ${z} beyond ${zone.side}`);
        if (at.rim > 0 && at.rim < 1 && at.voidArc > zone.voidArc + 0.02)
          throw new Error(`seed ${seed}: missing arc ${at.voidArc} at ${z} beyond ${zone.voidArc}`);
      }
    }
    expect(looked).toBeGreaterThan(2000);
  }, 120_000);
});
