/** Any setup text as a source tree: CSV by its name, YAML otherwise. */
import { readCsv } from "../csv.ts";
import type { SetupProblem } from "../types.ts";
import { type Source, SourceFile } from "./source.ts";
import { readYaml } from "./yaml.ts";

export interface FileReading {
  readonly file: SourceFile;
  readonly root: Source | null;
  readonly problems: readonly SetupProblem[];
}

export function readFile(uri: string, text: string): FileReading {
  const file = new SourceFile(uri, text);
  const reading = /\.(csv|tsv)([?#].*)?$/i.test(uri) ? readCsv(file) : readYaml(file);
  return { file, root: reading.root, problems: reading.problems };
}
