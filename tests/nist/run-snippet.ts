/** Runs one snippet through the public command line, as anybody outside would. */
import { swarfline } from "../cli/swarfline.ts";

export interface SnippetRun {
  /** `R(x,y,z)` rapid, `F` feed, `A` arc, `D(s)` dwell, other kinds by name; positions in the program's units. */
  readonly moves: readonly string[];
  readonly seconds: readonly (number | null)[];
  readonly findings: readonly {
    readonly check: string;
    readonly severity: string;
    readonly message: string;
    readonly line: number;
  }[];
}

export interface SnippetOptions {
  readonly dialect: "nist" | "generic-mill";
  /** Keys of the dialect changed by the machine's setup. */
  readonly keys?: Readonly<Record<string, string | number | boolean>>;
  readonly before?: string;
  readonly from?: readonly [number, number, number];
}

interface TraceMotion {
  readonly kind: string;
  readonly x: number | null;
  readonly y: number | null;
  readonly z: number | null;
  readonly seconds: number | null;
}

const round = (value: number | null): string => (value === null ? "?" : String(Math.round(value * 1e4) / 1e4 + 0));

const LETTERS: Readonly<Record<string, string>> = { rapid: "R", feed: "F", arc: "A" };

export async function runSnippet(text: string, options: SnippetOptions): Promise<SnippetRun> {
  const files: Record<string, string> = { "/shop/.git/HEAD": "", "/shop/part.nc": text };
  const argv = ["trace", "part.nc", "--format", "json"];
  if (options.keys === undefined) argv.push("--dialect", options.dialect);
  else {
    const keys = Object.entries(options.keys).map(([key, value]) => `, ${key}: ${value}`);
    files["/shop/swarfline.yaml"] = [
      "programs: [{ files: '*.nc', machine: m }]",
      `machines: { m: { kind: mill, dialect: { inherit: ${options.dialect}${keys.join("")} } } }`,
    ].join("\n");
  }
  const before = options.before ?? "G17 G90 G94 G21 G54 G98 S1000 M3 F100";
  if (before !== "") argv.push("--before", before);
  argv.push(`--from=${(options.from ?? [0, 0, 0]).join(",")}`);
  const { code, out, err } = await swarfline(argv, { files });
  if (code !== 0) throw new Error(`trace ended with ${code}: ${err}`);
  const printed = JSON.parse(out) as { motions: TraceMotion[]; findings: SnippetRun["findings"] };
  return {
    moves: printed.motions.map((m) => {
      const letter = LETTERS[m.kind];
      if (letter !== undefined) return `${letter}(${round(m.x)},${round(m.y)},${round(m.z)})`;
      return m.kind === "dwell" ? `D(${round(m.seconds)})` : m.kind;
    }),
    seconds: printed.motions.map((m) => m.seconds),
    findings: printed.findings,
  };
}
