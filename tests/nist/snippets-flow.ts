/** Jumps, loops and calls: common practice, since NISTIR 6556 has none. */
import type { Snippet } from "./snippets.ts";

const gm = "generic-mill" as const;
const X = (...values: readonly number[]) => values.map((value) => `R(${value},0,0)`);

export const FLOW: readonly Snippet[] = [
  {
    id: "C56",
    text: "#1=1 #2=2\nIF[#1LT#2]GOTO1\nG0 X9\nN1 G0 X1",
    source: "CP",
    dialect: gm,
    moves: X(1),
    clean: true,
  },
  {
    id: "C57",
    text: "#1=1\nG0\nWHILE[#1LE3]DO1\nX#1\n#1=#1+1\nEND1",
    source: "CP",
    dialect: gm,
    moves: X(1, 2, 3),
    clean: true,
  },
  {
    id: "C58",
    text: "#1=9\nWHILE[#1LT2]DO1\nWHILE[#1LT2]DO2\nEND1\nEND2",
    source: "CP",
    dialect: gm,
    error: /must not cross/,
  },
  { id: "C59", text: "GOTO9\nDO4\nEND4\nN9", source: "CP", dialect: gm, error: /number is 1, 2 or 3/ },
  {
    id: "C129",
    text: "M98 P51002\nM30\nO1002\nG91 G0 X1\nG90\nM99",
    source: "CP",
    dialect: gm,
    moves: X(1, 2, 3, 4, 5),
    clean: true,
  },
  {
    id: "C129",
    text: "M98 P1002 L5\nM30\nO1002\nG91 G0 X1\nG90\nM99",
    source: "CP",
    dialect: gm,
    moves: X(1, 2, 3, 4, 5),
    clean: true,
  },
  {
    id: "C132",
    text: "M98 P0002\nM30\nO0002\nG0 X1\nM99\nO2\nG0 X2\nM99",
    source: "B",
    dialect: gm,
    moves: X(1),
    warning: /O2 stands more than once/,
  },
  {
    id: "C134",
    text: "#1=7. #3=8.\nG65 P9010 A1. B2. Z-5. F100.\nG0 X#1 Y#3\nM30\nO9010\nG0 X#1 Y#2 Z#26 A#3\nG0 X#9\nM99",
    source: "CP",
    dialect: gm,
    moves: ["R(1,2,-5)", "R(100,2,-5)", "R(7,8,-5)"],
  },
];
