import { LineCounter, parseDocument } from "yaml";

/**
 * Whether a text is YAML at all. For a setup that was asked for by name: one that cannot be read must stop the command,
 * while a discovered one is a finding and wrong values are findings in both.
 * @returns the first syntax error in words, with line and column from 1; null when it can be read
 */
export function yamlFault(text: string): string | null {
  const lines = new LineCounter();
  const document = parseDocument(text, { lineCounter: lines, prettyErrors: false, strict: false, uniqueKeys: false });
  const [error] = document.errors;
  if (error === undefined) return null;
  const { line, col } = lines.linePos(error.pos[0]);
  return `line ${line}, column ${col}: ${error.message.replace(/\.$/, "")}`;
}
