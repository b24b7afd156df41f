/**
 * What is kept from review to review (loads, searches for a feed, shapes) only comes into play behind a checkpoint of the
 * execution, every 1024 lines: so a program of some thousand lines, edited behind one, against a fresh review each time.
 */
import fc from "fast-check";
import { expect, it } from "vitest";
import { readBlocks } from "../../grammar/read.ts";
import { publicPlace } from "../../server/review/places.ts";
import { review } from "../../server/review/review.ts";
import type { Review } from "../../server/review/types.ts";
import { LineStore } from "../../server/text/lines.ts";
import { makeMixedProgram } from "../bench/mixed.ts";
import { SETUP } from "../bench/setup.ts";

const PROGRAM = "file:///bench/mixed.nc";
const SETUP_FILE = "file:///bench/swarfline.yaml";
const sources = new Map([[SETUP_FILE, SETUP]]);
const LINES = 2600;
const TEXT = makeMixedProgram(LINES);

/** Findings and loads as data, by line: block ids differ between a kept and a fresh reading. */
function said(made: Review): unknown {
  const { execution, input } = made;
  return {
    findings: made.findings.map((f) => ({
      ...f,
      place: publicPlace(f.place, PROGRAM, input.blocks),
      related: f.related.map((r) => [publicPlace(r.place, PROGRAM, input.blocks), r.message]),
    })),
    loads: execution.shapes.map((shape) => {
      const { shape: _, tool, material, derive, engagement, ...values } = made.loads(shape);
      return [
        values,
        engagement?.class ?? null,
        tool?.T ?? null,
        material?.key ?? null,
        derive("torque")?.result.value ?? null,
      ];
    }),
  };
}

const edit = fc.record({
  line: fc.integer({ min: 1030, max: LINES - 4 }),
  kind: fc.constantFrom("F", "S", "Z", "newline", "comment", "coolant"),
});

it("a review after edits says what a fresh one says, and works few loads out anew", () => {
  let reused = 0;
  fc.assert(
    fc.property(fc.array(edit, { minLength: 1, maxLength: 5 }), (edits) => {
      const lines = LineStore.from(TEXT);
      const blocks = readBlocks(lines);
      const base = { program: PROGRAM, lines, blocks, sources, setupFile: SETUP_FILE };
      let kept = review(base);
      for (const { line: from, kind } of edits) {
        let line = from;
        const wanted = { F: /F\d/, S: /S\d/, Z: /Z-\d/, newline: /^/, comment: /^/, coolant: /M8/ }[kind];
        while (line < lines.count - 1 && !wanted.test(lines.line(line))) line++;
        const column = Math.max(0, lines.line(line).search(wanted));
        const at = { startLine: line, startColumn: column, endLine: line, endColumn: column };
        const change =
          kind === "newline"
            ? { ...at, text: "\n" }
            : kind === "comment"
              ? { ...at, text: "(X) " }
              : kind === "coolant"
                ? { ...at, endColumn: column + 2, text: "M9" }
                : {
                    ...at,
                    startColumn: column + (kind === "Z" ? 2 : 1),
                    endColumn: column + (kind === "Z" ? 2 : 1),
                    text: "1",
                  };
        blocks.update(lines.edit(change));
        const before = new Set(kept.execution.shapes.map((shape) => shape.likeness));
        kept = review({ ...base, previous: kept });
        reused += kept.execution.shapes.filter((shape) => before.has(shape.likeness)).length;
        const fresh = LineStore.from(lines.text());
        expect(said(kept)).toEqual(said(review({ ...base, lines: fresh, blocks: readBlocks(fresh) })));
      }
    }),
    { numRuns: 25 },
  );
  expect(reused).toBeGreaterThan(0);
}, 120_000);
