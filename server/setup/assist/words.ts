/** Words of a setup line: keys, values and words inside brackets, with their columns. */

export interface Piece {
  readonly start: number;
  readonly end: number;
  readonly text: string;
}

/** A key at this column: a word with a colon and a blank or the line's end behind it. */
export function keyAt(line: string, start: number): Piece | null {
  const rest = line.slice(start);
  const quoted = /^("(?:[^"\\]|\\.)*"|'(?:[^']|'')*')\s*:(?=\s|$)/.exec(rest);
  if (quoted !== null) {
    const text = quoted[1] ?? "";
    return { start, end: start + text.length, text: text.slice(1, -1) };
  }
  if (/^[[{"'#]/.test(rest)) return null;
  const plain = /^([^\s:#][^:#]*?|[^\s:#])\s*:(?=\s|$)/.exec(rest);
  const text = plain?.[1];
  return text === undefined ? null : { start, end: start + text.length, text };
}

/** The value from this column to the line's end or its comment. */
export function valueAt(line: string, start: number): Piece | null {
  const rest = line.slice(start);
  if (rest.trim() === "" || rest.startsWith("#")) return null;
  const quoted = /^("(?:[^"\\]|\\.)*"?|'(?:[^']|'')*'?)/.exec(rest);
  if (quoted !== null) {
    const text = quoted[0];
    return { start, end: start + text.length, text: text.replace(/^["']|["']$/g, "") };
  }
  const comment = rest.search(/\s#/);
  const text = (comment < 0 ? rest : rest.slice(0, comment)).trimEnd();
  return { start, end: start + text.length, text };
}

/** A word inside brackets. */
export function flowPiece(line: string, start: number): Piece {
  const rest = line.slice(start);
  const quoted = /^("(?:[^"\\]|\\.)*"?|'(?:[^']|'')*'?)/.exec(rest);
  if (quoted !== null && quoted[0] !== "") {
    return { start, end: start + quoted[0].length, text: quoted[0].replace(/^["']|["']$/g, "") };
  }
  let end = start;
  while (end < line.length) {
    const c = line[end] ?? "";
    if (
      /[[\]{},]/.test(c) ||
      (c === ":" && /[\s[\]{},]|^$/.test(line[end + 1] ?? "")) ||
      (c === "#" && /\s/.test(line[end - 1] ?? ""))
    )
      break;
    end++;
  }
  const text = line.slice(start, end).trimEnd();
  return { start, end: start + Math.max(text.length, 0), text };
}
