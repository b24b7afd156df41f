/** SARIF logs against the standard's own schema. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import { Ajv } from "ajv";
import addFormats from "ajv-formats";
import { expect } from "vitest";

export interface Sarif {
  readonly runs: readonly {
    readonly columnKind: string;
    readonly tool: { readonly driver: { readonly rules: readonly { readonly id: string }[] } };
    readonly results: readonly {
      readonly ruleId: string;
      readonly ruleIndex: number;
      readonly level: string;
      readonly locations: readonly {
        readonly physicalLocation: { readonly artifactLocation: { readonly uri: string }; readonly region: object };
      }[];
      readonly relatedLocations?: readonly unknown[];
      readonly partialFingerprints: Readonly<Record<string, string>>;
    }[];
  }[];
}

// OASIS SARIF 2.1.0, sarif-schema-2.1.0.json of the standard's "Schemata" folder, unchanged but for white space.
const schema = JSON.parse(readFileSync(join(import.meta.dirname, "sarif-schema-2.1.0.json"), "utf8"));
const ajv = new Ajv({ strict: false, allErrors: true });
addFormats.default(ajv);
const validate = ajv.compile(schema);

export function sarifProblems(log: unknown): string[] {
  validate(log);
  return (validate.errors ?? []).map((error) => `${error.instancePath} ${error.message}`);
}

export function validSarif(text: string): Sarif {
  const log: Sarif = JSON.parse(text);
  expect(sarifProblems(log)).toEqual([]);
  return log;
}
