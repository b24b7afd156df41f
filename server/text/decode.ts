/**
 * Bytes to text. Programs come from controls, flash cards and mail: most are plain ASCII, some are UTF-8, old ones hold
 * single-byte umlauts in comments, a few were saved as UTF-16.
 */

export type Encoding = "utf-8" | "latin-1" | "utf-16le" | "utf-16be";

export interface Decoded {
  /** Without the byte order mark. */
  readonly text: string;
  readonly encoding: Encoding;
  /** A byte order mark stood in front; a writer puts it back. */
  readonly bom: boolean;
}

/**
 * Decodes a file. UTF-8 where the bytes are strictly that, UTF-16 where a mark says so, else Latin-1, which every byte
 * sequence satisfies: so this never throws and never replaces a byte.
 */
export function decode(bytes: Uint8Array): Decoded {
  if (bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf) {
    const text = strictUtf8(bytes.subarray(3));
    if (text !== null) return { text, encoding: "utf-8", bom: true };
  }
  const utf16 = utf16Mark(bytes);
  if (utf16 !== null) return { text: wide(bytes.subarray(2), utf16), encoding: utf16, bom: true };
  const text = strictUtf8(bytes);
  if (text !== null) return { text, encoding: "utf-8", bom: false };
  return { text: latin1(bytes), encoding: "latin-1", bom: false };
}

/** Gives the bytes of a text back in the encoding it came in. Characters the encoding lacks become `?`. */
export function encode(text: string, encoding: Encoding, bom: boolean): Uint8Array {
  if (encoding === "utf-8") return new TextEncoder().encode(bom ? `\uFEFF${text}` : text);
  const marked = bom && encoding !== "latin-1" ? `\uFEFF${text}` : text;
  const bytes = new Uint8Array(encoding === "latin-1" ? marked.length : marked.length * 2);
  for (let i = 0; i < marked.length; i++) {
    const c = marked.charCodeAt(i);
    if (encoding === "latin-1") bytes[i] = c < 256 ? c : 63;
    else {
      bytes[2 * i + (encoding === "utf-16le" ? 0 : 1)] = c & 255;
      bytes[2 * i + (encoding === "utf-16le" ? 1 : 0)] = c >> 8;
    }
  }
  return bytes;
}

/**
 * True where the bytes are no text: many control characters near the start. NULs alone are judged mildly, because
 * punched-tape leaders and trailers are runs of them.
 */
export function looksBinary(bytes: Uint8Array): boolean {
  if (utf16Mark(bytes) !== null) return false;
  const length = Math.min(bytes.length, 8192);
  let nul = 0;
  let control = 0;
  for (let i = 0; i < length; i++) {
    const b = bytes[i] ?? 0;
    if (b === 0) nul++;
    // Not counted: tab, LF, VT, FF, CR; the tape codes DC1 to DC4; SUB, which old systems wrote as end of file.
    else if (b < 32 && !(b >= 9 && b <= 13) && !(b >= 17 && b <= 20) && b !== 26) control++;
  }
  const inside = nul - outerNuls(bytes, length);
  return (nul > 0 && nul === length) || inside * 50 > length || control * 20 > length;
}

function outerNuls(bytes: Uint8Array, length: number): number {
  let front = 0;
  while (front < length && bytes[front] === 0) front++;
  let back = 0;
  while (back < length - front && bytes[length - 1 - back] === 0) back++;
  return front + back;
}

function utf16Mark(bytes: Uint8Array): "utf-16le" | "utf-16be" | null {
  if (bytes[0] === 0xff && bytes[1] === 0xfe) return "utf-16le";
  if (bytes[0] === 0xfe && bytes[1] === 0xff) return "utf-16be";
  return null;
}

function strictUtf8(bytes: Uint8Array): string | null {
  try {
    return new TextDecoder("utf-8", { fatal: true, ignoreBOM: true }).decode(bytes);
  } catch {
    return null;
  }
}

/** Unit by unit, so that a lone surrogate or an odd last byte stays what it was. */
function wide(bytes: Uint8Array, encoding: "utf-16le" | "utf-16be"): string {
  const low = encoding === "utf-16le" ? 0 : 1;
  return joinUnits(
    Math.ceil(bytes.length / 2),
    (i) => ((bytes[2 * i + 1 - low] ?? 0) << 8) | (bytes[2 * i + low] ?? 0),
  );
}

/** Byte for byte: the platform's "latin1" decoder is windows-1252, which moves 0x80 to 0x9F. */
function latin1(bytes: Uint8Array): string {
  return joinUnits(bytes.length, (i) => bytes[i] ?? 0);
}

function joinUnits(length: number, unit: (index: number) => number): string {
  const parts: string[] = [];
  for (let at = 0; at < length; at += 4096) {
    const units = new Uint16Array(Math.min(4096, length - at));
    for (let i = 0; i < units.length; i++) units[i] = unit(at + i);
    parts.push(String.fromCharCode(...units));
  }
  return parts.join("");
}
