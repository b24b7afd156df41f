/**
 * The conformance snippets of the language, as a table: what a program text must give in one dialect.
 *
 * Sources: `N-ex` a worked example of NISTIR 6556, `N` a rule of it, `REF` behaviour of its reference interpreter, `SIM`
 * computed with its rules, `ISO` ISO 6983-1 or EIA RS-274-D from memory, `CP` common practice without a source, `B`
 * published test data.
 *
 * Numbers missing here: 47, 91, 92, 105, 110, 113-116, 121, 124, 125, 130, 133, 135, 141 and 142 do not exist; 82 (the state
 * after M2) stands in tests/unit/program/state.test.ts; 139 needs a tap in the setup and stands with the checks.
 */
export interface Snippet {
  readonly id: string;
  readonly text: string;
  readonly source: string;
  readonly dialect?: "nist" | "generic-mill" | "both";
  readonly keys?: Readonly<Record<string, string | number | boolean>>;
  readonly before?: string;
  readonly from?: readonly [number, number, number];
  /** All rapids, feeds, arcs and dwells in order. */
  readonly moves?: readonly string[];
  /** All motions in order, spindle, coolant and tool included. */
  readonly all?: readonly string[];
  readonly error?: RegExp | readonly RegExp[];
  readonly warning?: RegExp;
  readonly info?: RegExp;
  /** No error and no warning about the language. */
  readonly clean?: true;
  /** Check that must say it. */
  readonly check?: string;
  readonly seconds?: readonly number[];
}

const nist = "nist" as const;
const gm = "generic-mill" as const;
const both = "both" as const;

const X = (value: number) => [`R(${value},0,0)`];

export const LEXING: readonly Snippet[] = [
  { id: "C01", text: "g0x +0. 12 34y 7", source: "N-ex", dialect: both, moves: ["R(0.1234,7,0)"], clean: true },
  { id: "C02", text: "G1 X3", source: "N", dialect: both, moves: ["F(3,0,0)"], clean: true },
  { id: "C03", text: "G01X-.8807Y+007.50F100.", source: "N", dialect: both, moves: ["F(-0.8807,7.5,0)"], clean: true },
  { id: "C04", text: "G0 X.", source: "N", dialect: both, error: /X\./, check: "syntax" },
  { id: "C05", text: "G0 X1.2.3", source: "N", dialect: both, error: /X1\.2\.3/, check: "syntax" },
  { id: "C06", text: "G0 X", source: "N", dialect: both, error: /X has no value/, check: "syntax" },
  { id: "C07", text: "N000009 G0 X1", source: "N", dialect: nist, error: /6 digits/, moves: [] },
  { id: "C07", text: "N000009 G0 X1", source: "CP", dialect: gm, moves: X(1), clean: true },
  { id: "C08", text: "N0 G0 X1\nN99999 X2", source: "N", dialect: both, moves: [...X(1), ...X(2)], clean: true },
  { id: "C09", text: "N-1 G0 X1", source: "N", dialect: nist, error: /without a sign/ },
  { id: "C10", text: "G59.1\nG0 X1 Y1 Z1", source: "N", dialect: nist, moves: ["R(1,1,1)"], clean: true },
  { id: "C11", text: "M5\nM3.00005", source: "N", dialect: both, all: ["spindle", "spindle"], clean: true },
  { id: "C12", text: "G1 X1 X2", source: "N", dialect: nist, error: /X stands more than once/, moves: [] },
  {
    id: "C12",
    text: "G1 X1 X2",
    source: "CP",
    dialect: gm,
    warning: /X stands more than once.*last/,
    moves: ["F(2,0,0)"],
  },
  { id: "C13", text: "G0 G1 X1", source: "N", dialect: nist, error: /second code of one group/, moves: [] },
  {
    id: "C14",
    text: "G0 Y1\nG90 G91 X1",
    source: "N",
    dialect: nist,
    error: /second code of one group/,
    moves: ["R(0,1,0)"],
  },
  { id: "C15", text: "M3 M4", source: "N", dialect: nist, error: /M4 is the second code of its group/ },
  { id: "C16", text: "M7 M8", source: "N", dialect: nist, error: /M8 is the second code of its group/ },
  { id: "C16", text: "M7\nM8", source: "N", dialect: nist, all: ["coolant", "coolant"], clean: true },
  { id: "C17", text: "G80 M5 (stop motion)", source: "N-ex", dialect: both, all: ["spindle"], clean: true },
  { id: "C18", text: "G1 X1 (a (b) c)", source: "N", dialect: nist, error: /comment/, check: "syntax" },
  {
    id: "C18",
    text: "G1 X1 (a (b) c)",
    source: "CP",
    dialect: gm,
    error: /c has no value/i,
    check: "syntax",
    moves: ["F(1,0,0)"],
  },
  { id: "C19", text: "G1 X1 (open", source: "N", dialect: nist, error: /not closed/, check: "syntax" },
  { id: "C19", text: "G1 X1 (open", source: "CP", dialect: gm, warning: /not closed/, moves: ["F(1,0,0)"] },
  { id: "C20", text: "(MSG, HELLO)\n( m s g , hello)\nG0 X1", source: "N", dialect: both, moves: X(1), clean: true },
  { id: "C21", text: "(a)(b)\nG0 X1", source: "N", dialect: both, moves: X(1), clean: true },
  { id: "C22", text: "/G1 X5", source: "N", dialect: both, moves: ["F(5,0,0)"], clean: true },
  { id: "C23", text: "G1 /2 X5", source: "N", dialect: nist, error: /block delete/i, moves: [] },
  { id: "C23", text: "G1 /2 X5", source: "CP", dialect: gm, moves: ["F(5,0,0)"], clean: true },
  { id: "C24", text: "%\nG0 X1\n%\nG0 X9", source: "N", dialect: both, moves: X(1), clean: true },
  { id: "C25", text: "%\nG0 X1", source: "N", dialect: nist, error: /no % closes/, check: "program-end" },
  { id: "C25", text: "%\nG0 X1", source: "CP", dialect: gm, warning: /no % closes/, check: "program-end" },
  { id: "C26", text: "G0 X1", source: "N", dialect: nist, error: /no M2 or M30/, check: "program-end" },
  { id: "C26", text: "G0 X1", source: "CP", dialect: gm, warning: /no M2 or M30/, check: "program-end" },
  {
    id: "C27",
    text: "g40 g1 x[1] #3=15 (foo) #4=-7.0\nX#3 Y#4",
    source: "N-ex",
    dialect: both,
    moves: ["F(1,0,0)", "F(15,-7,0)"],
    clean: true,
  },
  { id: "C28", text: "G0 X10; park", source: "CP", dialect: gm, moves: X(10), clean: true },
  { id: "C28", text: "G0 X10; park", source: "N", dialect: nist, error: /; begins no comment/ },
  { id: "C29", text: "O1234 (PART)\nG0 X1", source: "CP", dialect: gm, moves: X(1), clean: true },
  { id: "C29", text: "O1234 (PART)", source: "N", dialect: nist, error: /no program numbers/ },
  {
    id: "C30",
    text: "G00 X10",
    source: "CP",
    dialect: gm,
    moves: ["R(10,0,0)"],
    info: /X10 has no decimal point.*10\.00 mm.*0\.010 mm.*`decimalMode/,
    clean: true,
  },
  {
    id: "C30",
    text: "G00 X10",
    source: "CP",
    dialect: gm,
    keys: { decimalMode: "least-increment" },
    moves: X(0.01),
    warning: /no decimal point.*0\.01/,
  },
  {
    id: "C31",
    text: "G00 X10.",
    source: "CP",
    dialect: gm,
    keys: { decimalMode: "least-increment" },
    moves: X(10),
    clean: true,
  },
  {
    id: "C32",
    text: "G0 X5.\nX0",
    source: "CP",
    dialect: gm,
    keys: { decimalMode: "least-increment" },
    moves: [...X(5), ...X(0)],
    clean: true,
  },
  { id: "C33", text: "G0X5Y-", source: "N", dialect: both, error: /Y-/, check: "syntax" },
  { id: "C34", text: "G1 X1E3", source: "N", dialect: nist, error: /E is no address/, moves: [] },
  { id: "C34", text: "G1 X1E3", source: "N", dialect: gm, moves: ["F(1,0,0)"] },
];

const F = (value: number) => [`F(${value},0,0)`];

export const EXPRESSIONS: readonly Snippet[] = [
  {
    id: "C35",
    text: "G1 X[1 + 2]\nX[1 - 2]\nX[1 --3]",
    source: "N-ex",
    dialect: both,
    moves: [...F(3), ...F(-1), ...F(4)],
    clean: true,
  },
  { id: "C36", text: "G1 X[1 + 2 * 3 - 4 / 5]", source: "N-ex", dialect: both, moves: F(6.2) },
  { id: "C37", text: "G1 X[2.0 / 3 * 1.5 - 5.5 / 11.0]", source: "N-ex", dialect: both, moves: F(0.5) },
  { id: "C38", text: "G1 X[15 MOD 4.0]", source: "N-ex", dialect: both, moves: F(3) },
  {
    id: "C39",
    text: "G1 X[2 or 2]\nX[2 xor 2]\nX[1 + [0 AND 1]]",
    source: "N-ex",
    dialect: nist,
    moves: [...F(1), ...F(0), ...F(1)],
  },
  {
    id: "C39",
    text: "G1 X[2 or 2]\nX[2 xor 2]\nX[1 + [0 AND 1]]",
    source: "CP",
    dialect: gm,
    moves: [...F(2), ...F(0), ...F(1)],
  },
  {
    id: "C40",
    text: "G1 Xsin[30]\nXtan[60.0]\nXatan[1.7321]/[1.0]",
    source: "N-ex",
    dialect: both,
    moves: [...F(0.5), ...F(1.7321), ...F(60.0007)],
  },
  {
    id: "C41",
    text: "G1 X5\nXround[-0.499]\nXround[-0.5001]\nXround[9.975]",
    source: "N-ex",
    dialect: both,
    moves: [...F(5), ...F(0), ...F(-1), ...F(10)],
  },
  {
    id: "C42",
    text: "G1 Xfix[-0.499]\nXfix[9.975]\nXfup[-0.5001]\nXfup[2.444]",
    source: "N-ex",
    dialect: nist,
    moves: [...F(-1), ...F(9), ...F(0), ...F(3)],
  },
  {
    id: "C42",
    text: "G1 X5 Xfix[9.975]\nXfix[-0.499]\nXfup[-0.5001]\nXfup[2.444]",
    source: "CP",
    dialect: gm,
    moves: [...F(9), ...F(0), ...F(-1), ...F(3)],
  },
  {
    id: "C43",
    text: "G1 Xexp[2.3026]\nXln[10.0]\nXsqrt[3**2 + 4**2]",
    source: "N-ex",
    dialect: both,
    moves: [...F(10.0001), "F(2.3026,0,0)", ...F(5)],
  },
  {
    id: "C44",
    text: "G1 X[2 ** 3.0] #1=2.0\n##1 = 0.375\nX#2",
    source: "N-ex",
    dialect: both,
    moves: [...F(8), ...F(0.375)],
  },
  { id: "C45", text: "#3=7.0\nG1 #3=5.0 X#3\nX#3 #3=1.1", source: "N-ex", dialect: nist, moves: [...F(7), ...F(5)] },
  { id: "C45", text: "#3=7.0\nG1 #3=5.0 X#3\nX#3 #3=1.1", source: "CP", dialect: gm, moves: F(5) },
  { id: "C46", text: "#3=15 #3=6\nG1 X#3", source: "N-ex", dialect: both, moves: F(6) },
  { id: "C48", text: "#1=5\nG1 X#1+2", source: "N", dialect: both, error: /\+2/, check: "syntax" },
  { id: "C49", text: "#3=9\nG1 X#[1+2]", source: "N", dialect: both, moves: F(9) },
  { id: "C50", text: "#0=1", source: "N", dialect: both, error: /#0 cannot be set/ },
  { id: "C50", text: "#5400=1", source: "N", dialect: nist, error: /#5400 cannot be set/ },
  {
    id: "C51",
    text: "G1 X[1/0]\nXsqrt[-1]\nXln[0]\nXacos[2]",
    source: "REF",
    dialect: both,
    error: [/division by zero/i, /SQRT of -1/, /LN of 0/, /ACOS of 2/],
  },
  { id: "C52", text: "G1 Xasim[0.5]", source: "N-ex", dialect: both, error: /ASIM/, check: "syntax" },
  {
    id: "C53",
    text: "G0 X5\nG[2*5] L[1+1] P1 X1\nX#5221",
    source: "N-ex",
    dialect: nist,
    moves: ["R(5,0,0)", "R(1,0,0)"],
  },
  { id: "C54", text: "G1 X2*3", source: "N", dialect: both, error: /\*3/, check: "syntax" },
  { id: "C55", text: "G90 G0 X100 Y#1", source: "CP", dialect: gm, moves: X(100), warning: /never set/ },
  {
    id: "C60",
    text: "#1=2 #2=2 #3=5\nIF[#1EQ#2]THEN#3=0\nG0 X[#3+1]\nIF[#1NE#2]THEN#3=9\nX[#3+2]",
    source: "CP",
    dialect: gm,
    moves: [...X(1), ...X(2)],
    clean: true,
  },
];
