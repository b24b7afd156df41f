/** The complete example of the public form, as the tests' good setup (kept as text, so that no formatter moves its lines). */
import { readFileSync } from "node:fs";
import { type Resolution, resolveSetup } from "../../../server/setup/resolve.ts";

export const complete = readFileSync(new URL("./complete.txt", import.meta.url), "utf8");

/** Resolves texts as files of one folder. */
export function resolve(
  texts: Readonly<Record<string, string>>,
  program = "parts/bracket-1.nc",
  dialect?: string,
): Resolution {
  const sources = new Map(Object.entries(texts).map(([name, text]) => [`/shop/${name}`, text]));
  const input = { program: `/shop/${program}`, setupFile: "/shop/swarfline.yaml", sources };
  return resolveSetup(dialect === undefined ? input : { ...input, dialect });
}
