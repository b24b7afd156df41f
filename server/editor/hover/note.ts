/** Hover of a comment that the review reads: a cut note said back in words, or the tool that a comment names. */
import type { Review, UnitSystem } from "../model.ts";
import { formText } from "./entry.ts";
import { toolLine } from "./facts.ts";
import { paragraphs, plain, soft } from "./markdown.ts";
import { countOf, ruledBy } from "./target.ts";

type Note = Review["execution"]["notes"][number];
type Place = Note["span"];

const REACH = {
  block: ", this block's",
  operation: "; it ends with G80 or the tool change",
  program: "; it is for the whole program",
} as const;

export function hoverComment(review: Review, system: UnitSystem, place: Place): string | null {
  const note = review.execution.notes.find(({ span }) => overlaps(span, place));
  if (note !== undefined) return noteText(review, system, note);
  for (const operation of review.execution.operations) {
    if (operation.tool === null) continue;
    const comment = review.execution.toolComment(operation.tool);
    if (comment === null || !overlaps(comment, place)) continue;
    const tool = review.execution.tool(operation.tool);
    if (tool === null) continue;
    const use = tool.assumed
      ? "No setup declares this tool; its diameter comes from here and is marked as assumed."
      : "The setup declares this tool; the comment is not used.";
    return paragraphs(`Read as **${toolLine(tool, tool.T, system)}**.`, use);
  }
  return null;
}

function noteText(review: Review, system: UnitSystem, { note, span }: Note): string {
  switch (note.kind) {
    case "entry":
    case "exit": {
      const ruled = ruledBy(review, (shape) => {
        const by = note.kind === "entry" ? shape.entry?.span : shape.exit?.span;
        return by != null && overlaps(by, span);
      });
      const count = countOf(ruled);
      const reach = (note.kind === "entry" ? ruled[0]?.shape.entry : ruled[0]?.shape.exit)?.scope;
      const holes = count === 1 ? "1 hole" : `${count} holes`;
      const scope =
        count === 0 ? "It reaches no hole." : `In force for ${holes}${reach === undefined ? "" : REACH[reach]}.`;
      const end = note.kind === "entry" ? "enters through" : "leaves through";
      return paragraphs("**Cut note**", soft(`Read as: the drill ${end} ${formText(note.form, system)}. ${scope}`));
    }
    case "material": {
      const hardness = note.hardness === null ? "" : `, hardness ${plain(note.hardness)}`;
      const used = review.setup.material;
      const found =
        used === null
          ? "No material of that name is known."
          : `Reviewed as ${plain(used.key)} (ISO group ${used.group}).`;
      return paragraphs("**Cut note**", `Read as: the workpiece is ${plain(note.name)}${hardness}. ${found}`);
    }
    case "allow":
      return paragraphs(
        "**Cut note**",
        `Read as: ${plain(note.by)} allows findings of ${plain(note.check)} up to ${plain(note.upTo)}, because: ` +
          `${plain(note.because)}. A value above that is reported again.`,
      );
  }
}

function overlaps(a: Place, b: Place): boolean {
  return a.block === b.block && a.start < b.end && b.start < a.end;
}
