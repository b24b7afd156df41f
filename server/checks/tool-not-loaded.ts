import { courseOf, HAS, type Moment } from "./course.ts";
import { single, wordPlace } from "./one-place.ts";
import type { Check } from "./types.ts";

export const toolNotLoaded: Check = {
  id: "tool-not-loaded",
  family: "tool",
  severity: "warning",
  docs: {
    title: "A tool is selected and never loaded, or loaded twice",
    what: "The last T of a program, after its last M6, that is no tool used before; and, as information, M6 for the tool that is in the spindle already.",
    why: "A T without M6 means that the holes after it are made with the tool before.",
    formula: "",
    example: "T3 M6\nG43 H3 Z50.\nT4\nG0 X10. Y10.\nM30",
    better: "T3 M6\nG43 H3 Z50.\nT4\nG0 X10. Y10.\nT4 M6\nG43 H4 Z50.\nM30",
    limits:
      "Staging the first tool for the next part is normal and stays silent, as does every tool that the program has used. Controls that load with T alone are not looked at.",
    source: "common practice, no source",
  },
  *detect(context) {
    const { execution, setup } = context;
    if (setup.dialect.toolLoadedBy !== "M6") return;
    const used = new Set<number>();
    // The tool only changes with M6: its state is asked there alone.
    let inSpindle: number | null = null;
    let staging: Moment | null = null;
    for (const moment of courseOf(context).moments) {
      if ((moment.has & (HAS.tool | HAS.toolChange)) === 0) continue;
      if ((moment.has & HAS.toolChange) !== 0) {
        const { tool } = execution.stepState(moment.step);
        const before = inSpindle;
        inSpindle = tool;
        staging = null;
        if (tool !== null) used.add(tool);
        if (tool === null || before !== tool) continue;
        yield single(
          "tool-not-loaded",
          "info",
          wordPlace(context, moment.block, "M", 6),
          `T${tool} is in the spindle already: this M6 changes nothing. Way out: leave it out, or T with the tool that is meant.`,
        );
      } else if (inSpindle !== null) staging = moment;
    }
    const staged = staging === null ? null : execution.stepState(staging.step).staged;
    if (staging === null || staged === null || staged === 0 || used.has(staged)) return;
    yield single(
      "tool-not-loaded",
      "warning",
      wordPlace(context, staging.block, "T"),
      `T${staged} is selected and no M6 loads it: T${inSpindle} stays in the spindle to the end. Way out: M6 for T${staged}, or leave the T out.`,
    );
  },
};
