import type { Dialect } from "../dialect.ts";
import { CYCLES } from "./dialect-cycles.ts";
import { MACHINE } from "./dialect-machine.ts";
import { WORDS } from "./dialect-words.ts";
import { record, type Schema, text } from "./node.ts";

/** Every key a control may read differently. A key of `Dialect` that is not here does not compile. */
const KEYS = { ...WORDS, ...CYCLES, ...MACHINE } satisfies { readonly [K in Exclude<keyof Dialect, "name">]: Schema };

/** A dialect of the shop's own: inherits a ready one and changes keys. */
export const DIALECT = record(
  "a dialect",
  {
    inherit: text("dialect", {
      description: "The ready dialect whose keys hold where nothing is written.",
      examples: ["generic-mill", "generic-turn", "nist"],
      fallback: "generic-mill",
    }),
    ...KEYS,
  },
  { description: "How the control reads programs, as changes to a ready dialect." },
);
