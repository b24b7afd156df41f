import fc from "fast-check";
import Papa from "papaparse";
import { describe, expect, test } from "vitest";
import { readCsv, splitRows } from "../../../server/setup/csv.ts";
import { SourceFile } from "../../../server/setup/read/source.ts";
import { resolve } from "./complete.ts";

const setup = 'programs: [{ files: "*.nc", tools: crib.csv }]\n';
const tools = (csv: string) => resolve({ "swarfline.yaml": setup, "crib.csv": csv }, "a.nc").setup;

describe("a tool table in CSV", () => {
  const heads =
    "T,name,family,DC,SIG,H,windows.P.vc.min,windows.P.vc.nominal,windows.P.vc.max,windows.42CrMo4.f.min,windows.42CrMo4.f.nominal,windows.42CrMo4.f.max,entry.heavy,coolant";
  test("has the names of the setup, nested with points", () => {
    const { problems, tools: table } = tools(
      `${heads}\n3,"carbide, ""long""",solid-carbide,10.2,140,3 33,70,90,110,0.15,0.2,0.25,50 %,through\n`,
    );
    expect(problems).toEqual([]);
    expect(table.get(3)).toMatchObject({ name: 'carbide, "long"', DC: 10.2, SIG: 140, H: [3, 33], coolant: "through" });
    expect(table.get(3)?.entry.heavy).toBe(0.5);
    expect(table.get(3)?.windows).toEqual([
      { group: "P", material: null, vc: [70, 90, 110], f: null },
      { group: null, material: "42CrMo4", vc: null, f: [0.15, 0.2, 0.25] },
    ]);
  });
  test("a window's material may hold points", () => {
    const { problems, tools: table } = tools(
      "T,family,DC,windows.1.7225.f.min,windows.1.7225.f.nominal,windows.1.7225.f.max\n03,spade,30,0.1,0.2,0.3\n",
    );
    expect(problems).toEqual([]);
    expect(table.get(3)).toMatchObject({
      path: "tools.crib.csv.T3",
      windows: [{ material: "42CrMo4", f: [0.1, 0.2, 0.3] }],
    });
  });
  test("an empty cell is not declared", () => {
    const { problems, tools: table } = tools(`${heads}\n3,,spade,30,,,,,,,,,,\n`);
    expect(problems).toEqual([]);
    expect(table.get(3)).toMatchObject({ SIG: null, H: [], windows: [], coolant: null, name: null });
  });
  test.each([
    ["semicolons and decimal commas", "T;family;DC\r\n3;spade;10,2\r\n"],
    ["tabs", "T\tfamily\tDC\n3\tspade\t10.2\n"],
    ["a byte order mark", "\uFEFFT,family,DC\n3,spade,10.2\n"],
    ["units in the head", "T,family,DC [in]\n3,spade,0.401574803\n"],
    ["a unit in the cell", "T,family,DC\n3,spade,0.401574803 in\n"],
    ["spaces, empty lines, comments", "\nT , family , DC\n\n# spade drills\n 3 , spade , 10.2 \n,,\n"],
    ["no line end at the end", "T,family,DC\n3,spade,10.2"],
  ])("%s", (_what, csv) => {
    const { problems, tools: table } = tools(csv);
    expect(problems).toEqual([]);
    expect(table.get(3)?.DC).toBeCloseTo(10.2, 6);
  });
});

describe("rows and cells", () => {
  /** Cells with quotes where they need them, as a spreadsheet writes them. */
  const cell = fc.string({ unit: fc.constantFrom("a", "1", " ", ",", ";", '"', "\n", "\r\n", "é") });
  const quote = (text: string): string => `"${text.replaceAll('"', '""')}"`;

  test("read as a general CSV reader reads them", () => {
    fc.assert(
      fc.property(
        fc.array(fc.array(cell, { minLength: 2, maxLength: 4 }), { minLength: 1, maxLength: 5 }),
        fc.constantFrom("\n", "\r\n"),
        (rows, end) => {
          const text = ["x,y", ...rows.map((row) => row.map(quote).join(","))].join(end);
          const theirs = Papa.parse<string[]>(text, { delimiter: ",", newline: end }).data;
          const ours = splitRows(new SourceFile("a.csv", text)).rows.map((row) => row.map((c) => c.text));
          expect(ours).toEqual(theirs);
        },
      ),
    );
  });

  test("every cell's place holds the cell, and nothing throws", () => {
    fc.assert(
      fc.property(
        fc.string({ unit: fc.constantFrom("T", "D", "C", ",", ";", '"', "\n", "\r", " ", "3", "\uFEFF", ".") }),
        (text) => {
          const file = new SourceFile("a.csv", text);
          for (const row of splitRows(file).rows) {
            for (const { span } of row) {
              expect(span.start).toBeGreaterThanOrEqual(0);
              expect(span.end).toBeGreaterThanOrEqual(span.start);
              expect(span.end).toBeLessThanOrEqual(text.length);
            }
          }
          readCsv(file);
        },
      ),
      { numRuns: 500 },
    );
  });
});
