import { parseDocument } from "yaml";
import { SourceFile } from "./source.ts";
import { wordFaults } from "./yaml-words.ts";

/**
 * Whether a text is YAML at all. For a setup that was asked for by name: one that cannot be read must stop the command,
 * while a discovered one is a finding and wrong values are findings in both.
 * @returns the first mistake of form in words, with line and column from 1; null when it can be read
 */
export function yamlFault(text: string): string | null {
  const document = parseDocument(text, { prettyErrors: false, strict: false, uniqueKeys: false });
  const file = new SourceFile("", text);
  // A second document is left out with a warning; the first can be read.
  const [fault] = wordFaults(
    document.errors.filter((error) => error.code !== "MULTIPLE_DOCS"),
    file,
  );
  if (fault === undefined) return null;
  const { line, column } = file.place(fault.span.start);
  return `line ${line + 1}, column ${column + 1}: ${fault.message}`;
}
