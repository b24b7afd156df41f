/** A dialect from its name or from changes to a ready one. */
import type { Dialect } from "../dialect.ts";
import { genericMill, readyDialects } from "../dialects/index.ts";
import { nearest } from "../read/nearest.ts";
import type { DIALECT } from "../schema/dialect.ts";
import type { Infer } from "../schema/node.ts";
import type { CoolantKind, CoolantSupply } from "../types.ts";
import { type Building, byDefault } from "./context.ts";

export const DEFAULT_DIALECT = genericMill.name;

/** The ready dialect of that name, or the sentence that says there is none. */
export function readyDialect(name: string): Dialect | string {
  const found =
    readyDialects.get(name) ?? [...readyDialects].find(([key]) => key.toLowerCase() === name.toLowerCase())?.[1];
  if (found !== undefined) return found;
  const near = nearest(name, [...readyDialects.keys()]);
  return `no dialect ${name}; ready dialects: ${[...readyDialects.keys()].join(", ")}${near === null ? "" : `; ${near}?`}`;
}

export function buildDialect(
  written: string | Infer<typeof DIALECT> | undefined,
  path: string,
  building: Building,
): Dialect {
  if (written === undefined) {
    byDefault(building, path, `default, ${DEFAULT_DIALECT}`);
    return genericMill;
  }
  if (typeof written === "string") return known(written, path, building);
  const base = written.inherit === undefined ? genericMill : known(written.inherit, `${path}.inherit`, building);
  const { inherit, cycles, coolantOn, coolantOff, spindleCoolant, ...plain } = written;
  void inherit;
  return {
    ...base,
    ...plain,
    name: `${base.name}, changed`,
    cycles:
      cycles === undefined
        ? base.cycles
        : overlay(
            base.cycles,
            [...cycles].map(([code, kind]) => [codeTimesTen(code), kind] as const),
          ),
    coolantOn:
      coolantOn === undefined
        ? base.coolantOn
        : overlay<string, CoolantKind>(
            base.coolantOn,
            [...coolantOn].map(([code, kind]) => [mCode(code), kind] as const),
          ),
    coolantOff: coolantOff === undefined ? base.coolantOff : new Set([...base.coolantOff, ...coolantOff.map(mCode)]),
    spindleCoolant: spindleCoolant === undefined ? base.spindleCoolant : overlaySpindle(base, spindleCoolant),
  };
}

function known(name: string, path: string, building: Building): Dialect {
  const found = readyDialect(name);
  if (typeof found !== "string") return found;
  building.findings.sayAt(path, found);
  building.findings.unknown.set(path, found);
  return genericMill;
}

function overlay<K, V extends string>(
  base: ReadonlyMap<K, V>,
  changes: Iterable<readonly [K, V | "none"]>,
): ReadonlyMap<K, V> {
  const result = new Map(base);
  for (const [key, value] of changes) {
    if (value === "none") result.delete(key);
    else result.set(key, value as V);
  }
  return result;
}

function overlaySpindle(
  base: Dialect,
  changes: NonNullable<Infer<typeof DIALECT>["spindleCoolant"]>,
): Dialect["spindleCoolant"] {
  const result = new Map(base.spindleCoolant);
  for (const [code, value] of changes) {
    if (value.direction !== undefined && value.coolant !== undefined)
      result.set(mCode(code), { direction: value.direction, coolant: mCode(value.coolant) });
  }
  return result;
}

/** `m08` is `M8`. */
export function mCode(code: string): string {
  return code.toUpperCase().replace(/^M0+(?=\d)/, "M");
}

function codeTimesTen(code: string): number {
  return Math.round(Number(code.replace(/^G/i, "")) * 10);
}

/** The dialect with the coolant codes that the machine declares beyond it. */
export function withCoolant(dialect: Dialect, coolant: ReadonlyMap<string, CoolantSupply>): Dialect {
  if (coolant.size === 0) return dialect;
  const coolantOn = new Map(dialect.coolantOn);
  for (const [code, supply] of coolant) coolantOn.set(code, supply.kind);
  return { ...dialect, coolantOn };
}
