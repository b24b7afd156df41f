/** Findings as the editor's diagnostics: pulled by the client, or pushed where it cannot pull. */
import {
  type Diagnostic,
  type DiagnosticRelatedInformation,
  DiagnosticSeverity,
  type DocumentDiagnosticReport,
  type Range,
} from "vscode-languageserver";
import { tooLargeMessage } from "../review/large.ts";
import { lineRange } from "../review/places.ts";
import type { OpenDocument } from "./documents.ts";
import type { Finding, Review } from "./model.ts";
import type { Reviews } from "./reviews.ts";
import { sameData } from "./same.ts";
import { setupDiagnostics } from "./setup-assist.ts";
import { SOURCE } from "./source.ts";
import { fileName, uriKey } from "./uris.ts";

const SEVERITY = {
  error: DiagnosticSeverity.Error,
  warning: DiagnosticSeverity.Warning,
  info: DiagnosticSeverity.Information,
} as const;

/** What was said of a document last, so that an unchanged answer travels as one word. */
interface Said {
  readonly resultId: string;
  readonly items: readonly Diagnostic[];
}

export class Diagnostics {
  readonly #reviews: Reviews;
  readonly #said = new WeakMap<OpenDocument, Said>();
  readonly #reviewed: (document: OpenDocument, review: Review) => void;
  #count = 0;

  /** @param reviewed is told of every review that findings were taken from */
  constructor(reviews: Reviews, reviewed: (document: OpenDocument, review: Review) => void) {
    this.#reviews = reviews;
    this.#reviewed = reviewed;
  }

  async of(document: OpenDocument): Promise<Diagnostic[]> {
    if (document.kind === "setup") return setupDiagnostics(document);
    if (document.kind !== "program") return [];
    const tooLarge = tooLargeMessage(document.lines.count, fileName(document.uri));
    if (tooLarge !== null) return [onFirstLine(document.lines, DiagnosticSeverity.Information, "too-large", tooLarge)];
    const review = await this.#reviews.of(document);
    if (review === null) return [];
    this.#reviewed(document, review);
    return programDiagnostics(review);
  }

  /** The answer to a pull. `unchanged` only when the client holds the very answer that would be given. */
  async pull(document: OpenDocument, previousResultId: string | undefined): Promise<DocumentDiagnosticReport> {
    const items = await this.of(document);
    let said = this.#said.get(document);
    if (said === undefined || !sameData(said.items, items)) {
      said = { resultId: String(++this.#count), items };
      this.#said.set(document, said);
    }
    if (previousResultId === said.resultId) return { kind: "unchanged", resultId: said.resultId };
    return { kind: "full", resultId: said.resultId, items };
  }
}

function onFirstLine(
  lines: OpenDocument["lines"],
  severity: DiagnosticSeverity,
  code: string,
  message: string,
): Diagnostic {
  return { range: firstLine(lines.line(0).length), severity, source: SOURCE, code, message };
}

export function programDiagnostics(review: Review): Diagnostic[] {
  const own: Diagnostic[] = [];
  const elsewhere = new Map<string, Finding[]>();
  for (const finding of review.findings) {
    if (finding.place.in === "program") own.push(diagnosticOf(review, finding));
    else {
      const list = elsewhere.get(finding.place.file) ?? [];
      list.push(finding);
      elsewhere.set(finding.place.file, list);
    }
  }
  // A broken setup must be seen from the program too: its own document may not be open.
  for (const [file, findings] of elsewhere) own.unshift(otherFile(review, file, findings));
  const { setupFile, sources } = review.input;
  if (setupFile !== null && !sources.has(setupFile)) {
    own.unshift(
      onFirstLine(
        review.input.lines,
        DiagnosticSeverity.Error,
        "setup",
        `${fileName(setupFile)} cannot be read: this program is checked without a setup.`,
      ),
    );
  }
  return own;
}

function diagnosticOf(review: Review, finding: Finding): Diagnostic {
  const related = finding.related.map((r) => ({ location: locationOf(review, r.place), message: r.message }));
  return {
    range: rangeOf(review, finding.place),
    severity: SEVERITY[finding.severity],
    source: SOURCE,
    code: finding.check,
    message: finding.message,
    ...(related.length === 0 ? {} : { relatedInformation: related }),
    data: { count: finding.count, ...(finding.data ?? {}) },
  };
}

function otherFile(review: Review, file: string, findings: readonly Finding[]): Diagnostic {
  const worst = findings.reduce((a, b) => (SEVERITY[b.severity] < SEVERITY[a.severity] ? b : a));
  const first = findings[0] ?? worst;
  const line = first.place.in === "file" ? first.place.line + 1 : 1;
  const related: DiagnosticRelatedInformation[] = findings.slice(0, 20).map((finding) => ({
    location: locationOf(review, finding.place),
    message: finding.message,
  }));
  const more = findings.length > 1 ? ` (and ${findings.length - 1} more in this file)` : "";
  return {
    range: firstLine(review.input.lines.line(0).length),
    severity: SEVERITY[worst.severity],
    source: SOURCE,
    code: first.check,
    message: `${fileName(file)} line ${line}: ${first.message}${more}`,
    relatedInformation: related,
    data: { count: findings.length },
  };
}

function locationOf(review: Review, place: Finding["place"]): { uri: string; range: Range } {
  const uri = place.in === "file" ? uriKey(place.file) : review.input.program;
  return { uri, range: rangeOf(review, place) };
}

export function rangeOf(review: Review, place: Finding["place"]): Range {
  const { line, start, endLine, end } = lineRange(place, review.input.blocks);
  return { start: { line, character: start }, end: { line: endLine, character: end } };
}

function firstLine(length: number): Range {
  return { start: { line: 0, character: 0 }, end: { line: 0, character: length } };
}
