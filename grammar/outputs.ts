/**
 * Statements that print or name and move nothing: `POPEN`, `DPRNT[X#100[53]]`, `BPRNT[C*X#100[4]]`, `PCLOS` and
 * `SETVN510[DEPTH,WIDTH]` (common practice, no source). Text stands between their brackets, so each is read whole.
 */
const OUTPUT = /(?:POPEN|PCLOS)(?![A-Z])|(?:[DB]PRNT|SETVN[ \t]*[0-9]*)[ \t]*\[/iy;

export interface Output {
  readonly end: number;
  /** Its brackets are closed, where it has some. */
  readonly closed: boolean;
}

/**
 * @param at a place outside brackets and comments
 * @returns null where none begins
 */
export function outputAt(text: string, at: number): Output | null {
  if (at > 0 && isLetter(text.charCodeAt(at - 1))) return null;
  OUTPUT.lastIndex = at;
  if (!OUTPUT.test(text)) return null;
  const start = OUTPUT.lastIndex;
  if (text[start - 1] !== "[") return { end: start, closed: true };
  let depth = 1;
  for (let i = start; i < text.length; i++) {
    const c = text.charCodeAt(i);
    if (c === 91) depth++;
    else if (c === 93 && --depth === 0) return { end: i + 1, closed: true };
  }
  let end = text.length;
  while (text.charCodeAt(end - 1) === 32 || text.charCodeAt(end - 1) === 9) end--;
  return { end, closed: false };
}

function isLetter(c: number): boolean {
  return (c >= 65 && c <= 90) || (c >= 97 && c <= 122);
}
