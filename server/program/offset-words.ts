/**
 * H and D as a tool list writes them: the numbers of the tool's length and radius offsets. `T3 | .5 DRILL | H3 | D3` is no
 * drill of 3 mm. A D with a point, a fraction or a unit is a diameter; a plain one may be either.
 */

const UNIT = String.raw`MM|MILLIMET|INCH|IN\b|"|''`;
const D_WORD = new RegExp(
  String.raw`(?<![A-Z\d.])D ?([=:]?) ?0{0,3}(\d{1,3})(?![\d/]|[.,]\d?|[ -]\d{1,3}/| ?(?:${UNIT}))`,
  "g",
);
const H_WORD = /(?<![A-Z\d.])H ?[=:]? ?0{0,3}(\d{1,3})(?![\d.])/g;

export interface Sizes {
  /** The comment with blanks in place of the offset numbers. */
  readonly text: string;
  /** The comment also without a D that may be a diameter or an offset; null: there is none. */
  readonly open: string | null;
}

/**
 * @param text in capitals, without the T number
 * @param ream a tolerance such as `D12 H7` belongs to a reamer
 */
export function withoutOffsets(text: string, T: number | null, ream: boolean): Sizes {
  const words = [...text.matchAll(D_WORD)];
  if (words.length === 0) return { text, open: null };
  const numbers = words.map((word) => Number(word[2]));
  const lengthOffset = [...text.matchAll(H_WORD)].some((word) => {
    const h = Number(word[1]);
    const fit = /\d ?$/.test(text.slice(0, word.index)) && h >= 5 && h <= 13 && (ream || h !== T);
    return !fit || numbers.includes(h);
  });
  let sizes = text;
  let open: string | null = null;
  words.forEach((word, i) => {
    // `D=` is how a diameter is labelled, unless H is labelled beside it.
    const offset = lengthOffset || (word[1] === "" && numbers[i] === T);
    if (offset) sizes = blanked(sizes, word);
    else if (word[1] === "") open = blanked(open ?? text, word);
  });
  return { text: sizes, open };
}

function blanked(text: string, { index = 0, 0: word }: RegExpMatchArray): string {
  return text.slice(0, index) + " ".repeat(word.length) + text.slice(index + word.length);
}
