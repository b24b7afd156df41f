/** The schema at a place: for hovers, completion and printing. */
import type { Schema } from "./node.ts";

/** Any item of a list. */
export const ITEM = "[]";

/** The schemas that may stand one step further in: a key, or `ITEM`. Empty: nothing is known there. */
export function descend(schema: Schema, segment: string): readonly Schema[] {
  switch (schema.kind) {
    case "record": {
      const next = Object.hasOwn(schema.keys, segment) ? schema.keys[segment] : undefined;
      return next === undefined ? [] : [next];
    }
    case "map":
      return segment === ITEM ? [] : [schema.of];
    case "list":
      if (segment === ITEM) return [schema.of];
      // A single one may stand without a list around it.
      return schema.single ? descend(schema.of, segment) : [];
    case "either":
      return schema.options.flatMap((option) => descend(option, segment));
    default:
      return [];
  }
}

/** All schemas that may stand at the end of a path. */
export function schemasAt(root: Schema, path: readonly string[]): readonly Schema[] {
  let current: readonly Schema[] = [root];
  for (const segment of path) current = current.flatMap((schema) => descend(schema, segment));
  return current;
}

/** Alternatives laid open: an `either` is its options. */
export function flatten(schemas: readonly Schema[]): readonly Schema[] {
  return schemas.flatMap((schema) => (schema.kind === "either" ? flatten(schema.options) : [schema]));
}
