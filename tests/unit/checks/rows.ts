/** Rows of cases about one check: the lines of a program and what is said of them. */
import type { Case, Expected } from "./cases.ts";
import { program } from "./shop.ts";

export interface Row {
  readonly name: string;
  readonly body: readonly string[];
  readonly expect?: Expected;
  readonly shop?: Case["shop"];
}

/** Lines of the body begin on line 3; after an approach of four lines on line 7. */
export const rows = (check: string, all: readonly Row[]): Case[] =>
  all.map(({ name, body, expect, shop }) => ({
    check,
    name,
    text: program(...body),
    expect: expect === undefined ? [] : [expect],
    ...(shop === undefined ? {} : { shop }),
  }));
