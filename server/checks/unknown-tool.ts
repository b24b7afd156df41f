import { anyHoles, at, type Candidate, cyclePlace, keyOf, perCause } from "./cause.ts";
import type { Check, CheckContext } from "./types.ts";

export const unknownTool: Check = {
  id: "unknown-tool",
  family: "tool",
  severity: "warning",
  docs: {
    title: "The tool is not in the tool table",
    what: "A T number that drills and is not in the table the setup names for this program.",
    why: "Nothing that depends on the tool is checked, or it is checked with a diameter from a comment.",
    formula: "",
    example:
      "%\nG21 G90 G94 G54\nT44 M6\nG0 X0. Y0. S2500 M3\nG43 H44 Z50. M8\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    better:
      "%\nG21 G90 G94 G54\nT3 M6\nG0 X0. Y0. S2500 M3\nG43 H3 Z50. M88\nG4 P3000\nG99 G81 X0. Y0. Z-20. R2. F450.\nG80 M9\nM30\n%",
    limits: "Only where the setup names a tool table for the program.",
    source: "the shop's own tool table",
  },
  *detect(context) {
    yield* perCause("unknown-tool", context, candidates(context));
  },
};

function* candidates(context: CheckContext): Generator<Candidate> {
  if (!context.setup.hasToolTable) return;
  for (const hole of anyHoles(context)) {
    const { tool, state } = hole.shape;
    if (tool === null || context.setup.tools.has(tool)) continue;
    const ref = state.from.tool;
    const assumed = hole.loads.tool !== null;
    const broken = context.setup.brokenTools?.get(tool);
    const what =
      broken === undefined
        ? `T${tool} is not in the tool table`
        : `T${tool} of the tool table cannot be used: ${broken}`;
    const mend = broken === undefined ? "add it to the table" : "mend it in the table";
    yield {
      key: `t${tool}${keyOf(ref, hole)}`,
      severity: "warning",
      weight: 1,
      place: ref === 0 ? cyclePlace(context, hole) : at(context, ref, hole.firstBlock),
      hole,
      message: `${what}. ${assumed ? "Its diameter is taken from a comment of the program (assumed)." : "Its loads are not checked."} Way out: ${mend}${context.setup.file === null ? "" : " in the setup"}, or look at the number.`,
      data: null,
    };
  }
}
