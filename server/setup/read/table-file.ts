/** Any setup text as a source tree: CSV by its name, YAML otherwise. */
import { readCsv } from "../csv.ts";
import type { SetupProblem } from "../types.ts";
import { type Source, SourceFile } from "./source.ts";
import { readYaml } from "./yaml.ts";

export interface FileReading {
  readonly file: SourceFile;
  readonly root: Source | null;
  readonly problems: readonly SetupProblem[];
  /** Lines (from 0) whose form is broken. */
  readonly broken: ReadonlySet<number>;
}

export function readFile(uri: string, text: string): FileReading {
  const file = new SourceFile(uri, text);
  if (!/\.(csv|tsv)([?#].*)?$/i.test(uri)) return { file, ...readYaml(file) };
  return { file, ...readCsv(file), broken: new Set() };
}
