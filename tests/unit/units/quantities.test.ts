import fc from "fast-check";
import Qty from "js-quantities";
import { describe, expect, it } from "vitest";
import {
  defaultUnit,
  describeQuantity,
  parseQuantity,
  type Quantity,
  UNITS,
  type UnitSystem,
} from "../../../server/units/quantities.ts";
import { baseUnit, numberIn, say, sayOne, unitIn } from "../../../server/units/wording.ts";

/** Our base unit and our first spelling of each unit, in the words of the reference library. */
const BASE: { readonly [Q in Quantity]: string } = {
  length: "mm",
  speed: "m/min",
  feedPerRev: "mm",
  feedRate: "mm/min",
  rotation: "rpm",
  power: "kW",
  torque: "N*m",
  force: "N",
  pressure: "bar",
  flow: "l/min",
  time: "s",
  minutes: "min",
  angle: "deg",
  removal: "cm^3/min",
  stress: "N/mm^2",
  share: "",
};

const REFERENCE: { readonly [unit: string]: string } = {
  um: "micrometer",
  "ft/min": "ft/min",
  "mm/rev": "mm",
  "in/rev": "in",
  "in/min": "in/min",
  "1/min": "rpm",
  kw: "kW",
  w: "W",
  n·m: "N*m",
  ft·lb: "ft*lbf",
  in·lb: "in*lbf",
  n: "N",
  lbf: "lbf",
  kn: "kN",
  kgf: "kg*gee",
  mpa: "MPa",
  "l/min": "l/min",
  "gal/min": "gal/min",
  "cm³/min": "cm^3/min",
  "in³/min": "in^3/min",
  "n/mm²": "N/mm^2",
  psi: "psi",
  deg: "deg",
};

const QUANTITIES = Object.keys(UNITS) as Quantity[];
const SYSTEMS: readonly UnitSystem[] = ["mm", "inch"];

describe("factors against a general-purpose units library", () => {
  const rows = QUANTITIES.flatMap((quantity) =>
    UNITS[quantity].map((row) => [quantity, row.names[0] ?? "", row] as const),
  );
  it.each(rows)("%s in %s", (quantity, unit, row) => {
    if (quantity === "share") {
      expect(row.factor).toBe(0.01);
      return;
    }
    // The library has no ksi, and rounds psi and lbf itself to some six figures.
    const reference = (unit === "ksi" ? new Qty(1000, "psi") : new Qty(1, REFERENCE[unit] ?? unit)).to(
      BASE[quantity],
    ).scalar;
    expect(Math.abs(row.factor / reference - 1)).toBeLessThan(5e-7);
  });
});

describe("parseQuantity", () => {
  it.each([
    ["30 hp", "power", 22.370997, "hp"],
    ["8kN", "force", 8000, "kN"],
    ["0.25", "length", 0.25, null],
    [".5 in", "length", 12.7, "in"],
    ["5.", "length", 5, null],
    ["-3 mm", "length", -3, "mm"],
    ["1e3 rpm", "rotation", 1000, "1/min"],
    ["600 SFM", "speed", 182.88, "ft/min"],
    ["0.010 ipr", "feedPerRev", 0.254, "in/rev"],
    ["90 ft-lb", "torque", 122.02362, "ft·lb"],
    ["90 lbf·ft", "torque", 122.02362, "ft·lb"],
    ["95 N·m", "torque", 95, "N·m"],
    ["95 N⋅m", "torque", 95, "N·m"],
    ["95 Nm", "torque", 95, "N·m"],
    ["90 ft lb", "torque", 122.02362, "ft·lb"],
    ["95 N m", "torque", 95, "N·m"],
    ["0.2 mm / rev", "feedPerRev", 0.2, "mm/rev"],
    ["800 1/min", "rotation", 800, "1/min"],
    ["800 min⁻¹", "rotation", 800, "1/min"],
    ["300 psi", "pressure", 20.684271, "psi"],
    ["2 MPa", "pressure", 20, "MPa"],
    ["5.3 gpm", "flow", 20.062684, "gal/min"],
    ["42 %", "share", 0.42, "%"],
    ["0.42", "share", 0.42, null],
    ["4 s", "time", 4, "s"],
    ["30 min", "minutes", 30, "min"],
    ["145 ksi", "stress", 999.739765, "ksi"],
    ["12 μm", "length", 0.012, "um"],
    ["12 µm", "length", 0.012, "um"],
  ] as const)("%s is a %s", (written, quantity, value, unit) => {
    const read = parseQuantity(written, quantity, "mm");
    if (typeof read === "string") throw new Error(read);
    expect(read.value).toBeCloseTo(value, 6);
    expect(read.unit).toBe(unit);
  });

  it("gives a bare number the unit of the file", () => {
    expect(parseQuantity("1", "length", "inch")).toEqual({ value: 25.4, unit: null });
    expect(parseQuantity(1, "pressure", "inch")).toEqual({ value: 0.06894757, unit: null });
    expect(parseQuantity(0.4, "share", "inch")).toEqual({ value: 0.4, unit: null });
  });

  it.each([
    ["", "power", 'expected a power in kW or hp, got ""'],
    ["many", "power", 'expected a power in kW or hp, got "many"'],
    ["1e999", "power", 'expected a power in kW or hp, got "1e999"'],
    ["0,25", "length", '",25" is no unit of a length in mm or in'],
    ["8 kg", "force", '"kg" is no unit of a force in N or lbf'],
    ["3 mm", "power", '"mm" is no unit of a power in kW or hp'],
  ] as const)("says what it expected instead of %j", (written, quantity, sentence) => {
    expect(parseQuantity(written, quantity, "mm")).toBe(sentence);
  });

  it("says what it expected instead of a number that is none", () => {
    expect(parseQuantity(Number.NaN, "torque", "mm")).toBe("expected a torque in N·m or ft·lb, got NaN");
    expect(parseQuantity(Number.POSITIVE_INFINITY, "torque", "mm")).toContain("got Infinity");
  });

  it("never throws and never gives a value that is not finite", () => {
    fc.assert(
      fc.property(
        fc.string(),
        fc.constantFrom(...QUANTITIES),
        fc.constantFrom(...SYSTEMS),
        (text, quantity, system) => {
          const read = parseQuantity(text, quantity, system);
          return typeof read === "string" ? read.length > 0 : Number.isFinite(read.value);
        },
      ),
    );
  });

  it("reads back every spelling with its own factor", () => {
    for (const quantity of QUANTITIES) {
      for (const row of UNITS[quantity]) {
        for (const name of row.names) {
          const read = parseQuantity(`2 ${name.toUpperCase()}`, quantity, "mm");
          expect(read, `${quantity} ${name}`).toMatchObject({ value: 2 * row.factor });
        }
      }
    }
  });

  it("has no spelling twice within a quantity", () => {
    for (const quantity of QUANTITIES) {
      const names = UNITS[quantity].flatMap((row) => row.names);
      expect(new Set(names).size, quantity).toBe(names.length);
    }
  });
});

describe("wording", () => {
  it("stands in both systems, the program's own first", () => {
    expect(say(183, "speed", "mm")).toBe("183 m/min (600 ft/min)");
    expect(say(182.88, "speed", "inch")).toBe("600 ft/min (183 m/min)");
    expect(say(0.0635, "feedPerRev", "inch")).toBe("0.0025 in/rev (0.064 mm/rev)");
    expect(say(101.6, "feedRate", "inch")).toBe("4.0 in/min (102 mm/min)");
    expect(say(20, "pressure", "mm")).toBe("20.0 bar (290 psi)");
    expect(say(1432, "rotation", "mm")).toBe("1432 1/min");
    expect(say(30, "angle", "inch")).toBe("30°");
    expect(say(0.55, "share", "mm")).toBe("55 %");
  });

  it("never lets a small value read as nothing", () => {
    expect(sayOne(0.0004, "length", "mm")).toBe("0.00040 mm");
    expect(sayOne(0, "length", "mm")).toBe("0.00 mm");
    expect(sayOne(-0.0000001, "length", "mm")).toBe("0.00 mm");
    expect(sayOne(Number.NaN, "length", "mm")).toBe("unknown mm");
  });

  it("round trip: what is said can be read and is the same to the digits shown", () => {
    const readable = QUANTITIES.filter((q) => q !== "angle");
    fc.assert(
      fc.property(
        fc.constantFrom(...readable),
        fc.constantFrom(...SYSTEMS),
        fc.double({ min: 0.5, max: 1e5, noNaN: true }),
        (quantity, system, value) => {
          const read = parseQuantity(sayOne(value, quantity, system), quantity, system);
          if (typeof read === "string") return false;
          const shownStep = Math.abs(value / numberIn(value, quantity, system));
          return Math.abs(read.value - value) <= 0.5 * shownStep + 1e-9 * value;
        },
      ),
    );
  });

  it("the number alone times its unit is the value", () => {
    fc.assert(
      fc.property(
        fc.constantFrom(...QUANTITIES),
        fc.constantFrom(...SYSTEMS),
        fc.double({ min: -1e6, max: 1e6, noNaN: true }),
        (quantity, system, value) => {
          const read = parseQuantity(
            `${numberIn(value, quantity, system)} ${unitIn(quantity, system)}`,
            quantity,
            system,
          );
          return typeof read !== "string" && Math.abs(read.value - value) <= 1e-9 * Math.max(1, Math.abs(value));
        },
      ),
    );
  });

  it("names units and quantities", () => {
    expect(describeQuantity("rotation")).toBe("a rotational speed in 1/min");
    expect(baseUnit("torque")).toBe("N·m");
    expect(baseUnit("share")).toBe("");
    expect(defaultUnit("minutes", "inch").names[0]).toBe("min");
    for (const quantity of QUANTITIES) if (quantity !== "share") expect(baseUnit(quantity), quantity).not.toBe("");
  });
});
