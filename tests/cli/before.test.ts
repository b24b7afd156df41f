/** `--before`: words that cannot be read are wrong use, with the place in them; whatever can be read is a start state. */
import { expect, test } from "vitest";
import { swarfline } from "./swarfline.ts";

const world = { files: { "/shop/a.nc": "G81 X1. Y2. Z-5. R2. F100.\nM30\n" } };

test.each([
  ["G21 XYZ", /^swarfline: --before cannot be read, column 5 of "G21 XYZ": X has no value; .* \(and 2 more\)\.\n$/],
  ["hello world", /, column 1 of "hello world": hello world is no word; /],
  ["G21 G2O", /, column 5 of "G21 G2O": G2O has a letter where a digit is meant; if G20 is meant, /],
  ["T5 (open", /, column 4 of "T5 \(open": this comment is not closed /],
  ["G54)", /, column 4 of /],
  ["G0 X1. (CUT FOO)", /, column 8 of .*: a cut note reads CUT ENTRY, /],
  ["G21\nG9X", /, line 2, column 3 of "G21␊G9X": X has no value; /],
])("--before %j is refused", async (before, message) => {
  for (const command of ["check", "explain", "trace"]) {
    const { code, out, err } = await swarfline([command, "--before", before, "a.nc"], world);
    expect({ code, out }).toEqual({ code: 2, out: "" });
    expect(err).toMatch(message);
    expect(err.trimEnd()).not.toContain("\n");
  }
});

test.each(["", "G21 G17 G90 G94 G54 S1000 M3", "#1=3\nG21 S[#1*100] M3 (START)"])(
  "--before %j runs",
  async (before) => {
    const { code, err } = await swarfline(["explain", "--before", before, "a.nc"], world);
    expect({ code, err }).toEqual({ code: 0, err: "" });
  },
);
