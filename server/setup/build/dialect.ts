/** A dialect from its name or from changes to a ready one. */
import type { Dialect } from "../dialect.ts";
import { genericMill, genericTurn, readyDialects } from "../dialects/index.ts";
import { nearest } from "../read/nearest.ts";
import type { DIALECT } from "../schema/dialect.ts";
import type { Infer } from "../schema/node.ts";
import type { CoolantKind, CoolantSupply, Machine } from "../types.ts";
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

/** The dialect of a machine that declares none. */
const dialectOf = (kind: Machine["kind"]): Dialect => (kind === "turn" ? genericTurn : genericMill);

export function buildDialect(
  written: string | Infer<typeof DIALECT> | undefined,
  path: string,
  building: Building,
  kind: Machine["kind"] = "mill",
): Dialect {
  const fallback = dialectOf(kind);
  if (written === undefined) {
    byDefault(building, path, `default, ${fallback.name}${kind === "turn" ? " for a turning machine" : ""}`);
    return fallback;
  }
  if (typeof written === "string") return known(written, path, building, fallback);
  const base = written.inherit === undefined ? fallback : known(written.inherit, `${path}.inherit`, building, fallback);
  const { inherit, cycles, coolantOn, coolantOff, spindleCoolant, liveSpindle, customG, customM, ...rest } = written;
  const { feedIncrements, maxNesting, travel, wcsCodes, g10Forms, endCodes, ...plain } = rest;
  void inherit;
  return {
    ...base,
    ...plain,
    name: `${base.name}, changed`,
    feedIncrements: { ...base.feedIncrements, ...feedIncrements },
    maxNesting: { ...base.maxNesting, ...maxNesting },
    travel: { ...base.travel, ...travel },
    wcsCodes: wcsCodes === undefined ? base.wcsCodes : new Set(wcsCodes),
    g10Forms: g10Forms === undefined ? base.g10Forms : new Set(g10Forms),
    endCodes: endCodes === undefined ? base.endCodes : new Set(endCodes),
    cycles: overlaid(base.cycles, cycles, codeTimesTen),
    coolantOn: overlaid<string, CoolantKind>(base.coolantOn, coolantOn, mCode),
    coolantOff: coolantOff === undefined ? base.coolantOff : new Set([...base.coolantOff, ...coolantOff.map(mCode)]),
    spindleCoolant: spindleCoolant === undefined ? base.spindleCoolant : overlaySpindle(base, spindleCoolant),
    liveSpindle: overlaid(base.liveSpindle, liveSpindle, mCode),
    customG: overlaid<number, string>(base.customG, customG, codeTimesTen),
    customM: overlaid<number, string>(base.customM, customM, (code) => Number(mCode(code).slice(1))),
  };
}

function known(name: string, path: string, building: Building, fallback: Dialect): Dialect {
  const found = readyDialect(name);
  if (typeof found !== "string") return found;
  building.findings.sayAt(path, found);
  building.findings.unknown.set(path, found);
  return fallback;
}

/** The inherited codes with those of the setup over them; `none` takes one away. */
function overlaid<K, V extends string>(
  base: ReadonlyMap<K, V>,
  changes: ReadonlyMap<string, V | "none"> | undefined,
  key: (written: string) => K,
): ReadonlyMap<K, V> {
  if (changes === undefined) return base;
  const result = new Map(base);
  for (const [code, value] of changes) {
    if (value === "none") result.delete(key(code));
    else result.set(key(code), value as V);
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
