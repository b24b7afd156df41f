/** What was probably meant by a unit or a key that does not fit where it stands. */
import { type Quantity, UNITS } from "../../units/quantities.ts";
import type { Schema } from "../schema/node.ts";
import { nearest } from "./nearest.ts";

/**
 * The same number with the unit that was meant: `0.0015 in` as a feed per revolution is `0.0015 in/rev`, `90 m` as a
 * cutting speed is `90 m/min`.
 * @returns null where the unit is not the beginning of one of this quantity
 */
export function unitMeant(text: string, quantity: Quantity): string | null {
  const written = /^\s*([+-]?(?:\d+\.?\d*|\.\d+)(?:e[+-]?\d+)?)\s*(\S+)\s*$/i.exec(text);
  if (written === null) return null;
  const unit = (written[2] ?? "").toLowerCase();
  const begins = `${INCHES.has(unit) ? "in" : unit}/`;
  const name = UNITS[quantity].flatMap((row) => row.names).find((each) => each.startsWith(begins));
  return name === undefined ? null : `${written[1]} ${name.replace(/^l\//, "L/")}`;
}

const INCHES: ReadonlySet<string> = new Set(['"', "''", "inch", "inches", "in."]);

/**
 * The key that was probably meant: one further in of the same name (`fMin` of a tool is `entry.fMin`, `vc` is
 * `windows[].vc`), else the nearest here.
 */
export function keyMeant(key: string, schema: Schema): string | null {
  if (schema.kind !== "record") return null;
  const near = nearest(key, Object.keys(schema.keys));
  if (near === `${key}s`) return near;
  return keyInside(key, schema) ?? near;
}

/** null where a key is known nowhere further in, or in several places. */
function keyInside(key: string, schema: Schema): string | null {
  const found = placesOf(key.toLowerCase(), schema, 3);
  return found.length === 1 ? (found[0] ?? null) : null;
}

function placesOf(key: string, schema: Schema, depth: number): string[] {
  if (depth === 0 || schema.kind !== "record") return [];
  return Object.entries(schema.keys).flatMap(([name, inner]) => {
    const item = inner.kind === "list" ? inner.of : inner;
    if (item.kind !== "record") return [];
    const at = inner.kind === "list" ? `${name}[]` : name;
    const own = Object.keys(item.keys).find((each) => each.toLowerCase() === key);
    if (own !== undefined) return [`${at}.${own}`];
    return placesOf(key, item, depth - 1).map((path) => `${at}.${path}`);
  });
}
