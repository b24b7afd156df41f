import fc from "fast-check";
import { describe, expect, test } from "vitest";
import { decode, encode, looksBinary } from "../../../server/text/decode.ts";

const bytes = (...values: number[]) => Uint8Array.from(values);
const ascii = (text: string) => Uint8Array.from(text, (c) => c.charCodeAt(0));

describe("decode", () => {
  test.each([
    ["plain", ascii("G1 X1"), { text: "G1 X1", encoding: "utf-8", bom: false }],
    ["empty", bytes(), { text: "", encoding: "utf-8", bom: false }],
    ["UTF-8", new TextEncoder().encode("(FRÄSER Ø8)"), { text: "(FRÄSER Ø8)", encoding: "utf-8", bom: false }],
    ["UTF-8 with mark", bytes(0xef, 0xbb, 0xbf, 0x47, 0x31), { text: "G1", encoding: "utf-8", bom: true }],
    ["Latin-1", bytes(0x28, 0xd8, 0x38, 0x29), { text: "(Ø8)", encoding: "latin-1", bom: false }],
    [
      "Latin-1 control range stays as it is",
      bytes(0xff, 0x80, 0x9f),
      { text: "ÿ\u0080\u009f", encoding: "latin-1", bom: false },
    ],
    [
      "a mark before what is no UTF-8",
      bytes(0xef, 0xbb, 0xbf, 0xd8),
      { text: "ï»¿Ø", encoding: "latin-1", bom: false },
    ],
    ["UTF-16 LE", bytes(0xff, 0xfe, 0x47, 0, 0x31, 0), { text: "G1", encoding: "utf-16le", bom: true }],
    ["UTF-16 BE", bytes(0xfe, 0xff, 0, 0x47, 0, 0x31), { text: "G1", encoding: "utf-16be", bom: true }],
    ["overlong UTF-8 is not UTF-8", bytes(0xc0, 0xaf), { text: "À¯", encoding: "latin-1", bom: false }],
  ])("%s", (_, input, expected) => {
    expect(decode(input)).toEqual(expected);
  });

  test("never throws, and encode gives the bytes back", () => {
    fc.assert(
      fc.property(fc.uint8Array({ maxLength: 64 }), (input) => {
        const { text, encoding, bom } = decode(input);
        // An odd last byte of UTF-16 has no character of its own; it comes back with a zero beside it.
        if (encoding.startsWith("utf-16") && input.length % 2 === 1) return;
        expect(encode(text, encoding, bom)).toEqual(input);
      }),
      { numRuns: 2000 },
    );
  });

  test("long Latin-1 text", () => {
    const input = new Uint8Array(20_000).fill(0xe9);
    expect(decode(input).text).toBe("é".repeat(20_000));
  });
});

describe("looksBinary", () => {
  test.each([
    ["a program", ascii("%\r\nG1 X1\r\n%"), false],
    ["nothing", bytes(), false],
    [
      "a tape with a leader of NULs and punch codes",
      Uint8Array.from([...Array(300).fill(0), 0x11, ...ascii("%\nG1\n%"), 0x13, ...Array(300).fill(0)]),
      false,
    ],
    ["NULs only", new Uint8Array(100), true],
    ["NULs all through", Uint8Array.from({ length: 400 }, (_, i) => (i % 4 === 0 ? 0 : 65)), true],
    ["a picture", bytes(0x89, 0x50, 0x4e, 0x47, 0x0d, 0x0a, 0x1a, 0x0a, 0, 0, 0, 13, 1, 2, 3, 4, 5, 6, 7, 8), true],
    ["UTF-16 with its mark", bytes(0xff, 0xfe, 0x47, 0, 0x31, 0), false],
    ["umlauts", bytes(0x28, 0xd8, 0xe4, 0x29), false],
  ])("%s", (_, input, expected) => {
    expect(looksBinary(input)).toBe(expected);
  });
});
