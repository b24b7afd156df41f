/**
 * `check --format sarif`: SARIF 2.1.0 (OASIS standard). Addresses are relative to the repository, so that a code-scanning
 * view finds the files; a finding keeps its fingerprint when lines move, are renumbered or are written otherwise.
 */
import { createHash } from "node:crypto";
import { version } from "../../../package.json";
import { CHECKS } from "../../checks/registry.ts";
import type { CheckDocs } from "../../checks/types.ts";
import { CAUTIONS } from "../../report/cautions.ts";
import { SECTIONS } from "../checks.ts";
import { repositoryRoot } from "../discover.ts";
import type { CliIo } from "../io.ts";
import { absolute, isInside, shown } from "../paths.ts";
import type { Placed, PublicFinding } from "../public.ts";
import type { CheckResult } from "../result.ts";
import { toJson } from "./json.ts";

const SCHEMA = "https://docs.oasis-open.org/sarif/sarif/v2.1.0/errata01/os/schemas/sarif-schema-2.1.0.json";
const ROOT = "%SRCROOT%";
const LEVEL = { error: "error", warning: "warning", info: "note", off: "none" } as const;

interface Rule {
  readonly id: string;
  readonly [key: string]: unknown;
}

export function checkSarif(results: readonly CheckResult[], io: CliIo): string {
  const root = repositoryRoot(io.cwd, io) ?? io.cwd;
  const rules = makeRules();
  const ruleIndex = new Map(rules.map((rule, index) => [rule.id, index]));
  const ordinals = new Map<string, number>();
  const location = ({ file, line, column }: PublicFinding["related"][number], end?: PublicFinding) => ({
    physicalLocation: {
      artifactLocation: artifact(file, root, io),
      region: {
        startLine: line,
        startColumn: column,
        ...(end === undefined ? {} : { endLine: end.endLine, endColumn: end.endColumn }),
      },
    },
  });
  const result = ({ finding, text, context }: Placed) => ({
    ruleId: finding.check,
    ...(ruleIndex.has(finding.check) ? { ruleIndex: ruleIndex.get(finding.check) } : {}),
    level: LEVEL[finding.severity],
    message: { text: finding.message },
    locations: [location({ ...finding, message: "" }, finding)],
    ...(finding.related.length === 0
      ? {}
      : {
          relatedLocations: finding.related.map((related, id) => ({
            id: id + 1,
            ...location(related),
            message: { text: related.message },
          })),
        }),
    partialFingerprints: {
      "swarfline/v1": fingerprint(finding, artifact(finding.file, root, io).uri, text, context, ordinals),
    },
    ...(finding.count > 1 ? { occurrenceCount: finding.count } : {}),
    properties: { ...finding.data },
  });
  return toJson({
    $schema: SCHEMA,
    version: "2.1.0",
    runs: [
      {
        tool: {
          driver: {
            name: "Swarfline",
            semanticVersion: version,
            fullDescription: { text: CAUTIONS.join(" ") },
            rules,
          },
        },
        columnKind: "utf16CodeUnits",
        originalUriBaseIds: { [ROOT]: { description: { text: "The root of the repository." } } },
        results: results.flatMap(({ findings }) => findings.map(result)),
      },
    ],
  });
}

function makeRules(): Rule[] {
  return CHECKS.map(({ id, severity, docs }) => ({
    id,
    name: id.replace(/(?:^|-)(\w)/g, (_, letter: string) => letter.toUpperCase()),
    shortDescription: { text: docs.title },
    fullDescription: { text: docs.what },
    help: {
      text: sections(docs)
        .map(([head, body]) => `${head}: ${body}`)
        .join("\n\n"),
      markdown: sections(docs)
        .map(([head, body, code]) => `**${head}**\n\n${code ? fence(body) : body}`)
        .join("\n\n"),
    },
    defaultConfiguration: { enabled: severity !== "off", level: LEVEL[severity] },
  }));
}

function sections(docs: CheckDocs): (readonly [head: string, body: string, code: boolean])[] {
  return SECTIONS.flatMap(({ key, head, code }) => (docs[key] === "" ? [] : [[head, docs[key], code] as const]));
}

function fence(code: string): string {
  return `\`\`\`\n${code}\n\`\`\``;
}

/** Relative to the root and percent-encoded; a file outside the repository has only its absolute address. */
function artifact(file: string, root: string, io: CliIo): { readonly uri: string; readonly uriBaseId?: string } {
  const path = absolute(file, io);
  const encode = (parts: string) => parts.split("/").map(encodeURIComponent).join("/");
  if (isInside(path, root, io)) return { uri: encode(shown(path, io, root)), uriBaseId: ROOT };
  return { uri: `file://${path.startsWith("/") ? "" : "/"}${encode(path).replace(/^([A-Za-z])%3A/, "$1:")}` };
}

/**
 * Check, file, tool and the block's own words, without N number, white space and comments, and the how-manieth of equals:
 * two findings on one line never share a fingerprint.
 */
function fingerprint(
  finding: PublicFinding,
  uri: string,
  text: string,
  context: string,
  ordinals: Map<string, number>,
): string {
  const words = text
    .toUpperCase()
    .replace(/\([^)]*\)?|;.*$/g, "")
    .replace(/\s+/g, "")
    .replace(/^(\/\d?)?N\d+/, "$1");
  const key = [finding.check, uri, context, words === "" ? text.trim() : words].join("\n");
  const ordinal = ordinals.get(key) ?? 0;
  ordinals.set(key, ordinal + 1);
  return createHash("sha256").update(`${key}\n${ordinal}`).digest("hex").slice(0, 32);
}
