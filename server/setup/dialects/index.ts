import type { Dialect } from "../dialect.ts";
import { genericMill } from "./generic-mill.ts";
import { genericTurn } from "./generic-turn.ts";
import { nist } from "./nist.ts";

export { genericMill, genericTurn, nist };

/** The dialects that ship with Swarfline, by the name a setup inherits. */
export const readyDialects: ReadonlyMap<string, Dialect> = new Map([
  [nist.name, nist],
  [genericMill.name, genericMill],
  [genericTurn.name, genericTurn],
]);
