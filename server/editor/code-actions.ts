/**
 * Quick fixes for the finding under the cursor. Each changes how a machine moves, so each needs a confirmation: the client
 * shows what would change, and a client that cannot is offered none. None belongs to what is fixed on saving.
 */
import { type CodeAction, CodeActionKind, type CodeActionParams, type Range } from "vscode-languageserver";
import { eolFor } from "../review/fixes/proof.ts";
import { SPLIT_FEED_CHECKS, splitFeed } from "../review/fixes/split-feed.ts";
import type { Fix } from "../review/fixes/types.ts";
import { rangeOf } from "./diagnostics.ts";
import type { OpenDocument } from "./documents.ts";
import type { Finding, Review } from "./model.ts";
import type { Reviews } from "./reviews.ts";

export interface ActionClient {
  readonly confirmsEdits: boolean;
  readonly takesCodeActions: boolean;
  readonly takesDisabledActions: boolean;
}

const ANNOTATION = "swarfline.fix";

export async function codeActions(
  document: OpenDocument,
  { range, context }: CodeActionParams,
  reviews: Reviews,
  client: ActionClient,
): Promise<CodeAction[]> {
  if (!client.confirmsEdits || !client.takesCodeActions || document.kind !== "program") return [];
  const { only } = context;
  if (only !== undefined && !only.some((kind) => kind === CodeActionKind.Empty || kind === CodeActionKind.QuickFix))
    return [];
  const review = await reviews.of(document);
  if (review === null) return [];
  const actions: CodeAction[] = [];
  for (const finding of review.findings) {
    if (!SPLIT_FEED_CHECKS.has(finding.check) || finding.place.in !== "program") continue;
    const at = rangeOf(review, finding.place);
    if (!meets(at, range)) continue;
    const told = context.diagnostics.filter(
      ({ code, range: { start } }) =>
        code === finding.check && start.line === at.start.line && start.character === at.start.character,
    );
    const action = actionOf(document, review, finding, splitFeed(review, finding), client);
    if (action !== null) actions.push({ ...action, kind: CodeActionKind.QuickFix, diagnostics: told });
  }
  return actions;
}

function actionOf(
  document: OpenDocument,
  review: Review,
  finding: Finding,
  fix: Fix,
  client: ActionClient,
): CodeAction | null {
  if (!fix.offered) {
    const reason = `Swarfline cannot split the feed: ${fix.why}.`;
    return client.takesDisabledActions ? { title: "Split the feed in long hand", disabled: { reason } } : null;
  }
  const { lines } = review.input;
  const edits = fix.edits.map(({ line, texts }) => ({
    range: { start: { line, character: 0 }, end: { line, character: lines.line(line).length } },
    newText: texts.join(eolFor(lines, line)),
    annotationId: ANNOTATION,
  }));
  const description = `Way out of ${finding.check}: read each block before it runs.`;
  return {
    title: fix.title,
    edit: {
      documentChanges: [{ textDocument: { uri: document.uri, version: document.version }, edits }],
      changeAnnotations: { [ANNOTATION]: { label: fix.title, description, needsConfirmation: true } },
    },
  };
}

function meets(a: Range, b: Range): boolean {
  const before = (p: Range["start"], q: Range["start"]): boolean =>
    p.line < q.line || (p.line === q.line && p.character < q.character);
  return !before(a.end, b.start) && !before(b.end, a.start);
}
