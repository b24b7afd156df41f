import type { ResolvedSetup } from "../setup/types.ts";
import type { MetalHole } from "./cause.ts";
import { coolantUnchecked } from "./coolant-unchecked.ts";
import { eventFindings, eventsOf, levelOf, said, sentence } from "./events.ts";
import type { Check } from "./types.ts";
import { listed, toolName } from "./wording.ts";

export const unknownCode: Check = {
  id: "unknown-code",
  family: "reading",
  severity: "warning",
  docs: {
    title: "A G or M code that the dialect does not know",
    what: "A code that is neither in the dialect nor declared for the machine.",
    why: "It may be the machine builder's own. If it switches spindle, coolant or feed mode, the review goes on without knowing.",
    formula: "",
    example: "M77",
    better: "M8",
    limits:
      "Codes of the machine builder are legal. Coolant codes are made known under `machines: … coolant:`, others under `customG:` and `customM:` of the dialect.",
    source: "NISTIR 6556 for `nist`; common practice, no source, for `generic-mill`",
  },
  *detect(context) {
    const known = context.setup.dialect.unknownCode;
    yield* eventFindings("unknown-code", eventsOf(context, "unknown-code"), (event) => {
      if (known === "ignore") return null;
      const code = said(event, "code", "");
      const text = said(
        event,
        "text",
        code === "" ? "a code that the dialect does not know" : `${code} is not known to this dialect`,
      );
      return {
        severity: levelOf(event, known === "error" ? "error" : "warning"),
        message: `${sentence(text)} What it does is not followed${notChecked(coolantUnchecked(context).get(code))}. ${wayOut(code, context.setup.dialect)}`,
        key: text,
      };
    });
  },
};

/** Coolant checks that the code keeps silent. */
function notChecked(holes: readonly MetalHole[] | undefined): string {
  if (holes === undefined) return "";
  const tools = [...new Set(holes.map(({ shape }) => shape.tool))].map(toolName);
  return `; whether coolant is on for ${listed(tools)} cannot be checked`;
}

function wayOut(code: string, dialect: ResolvedSetup["dialect"]): string {
  if (code.startsWith("M")) {
    const name = /^M\d+$/.test(code) ? code : "M…";
    const driven =
      dialect.machineKind !== "mill"
        ? `, \`liveSpindle: { ${name}: cw }\` of the dialect if it starts driven tools`
        : "";
    return `Way out: \`coolant: { ${name}: … }\` of the machine if it is a coolant code${driven}; else \`customM: { ${name}: … }\` of the dialect, and see that nothing that is checked hangs on it.`;
  }
  return `Way out: the dialect of the control that the program is written for; or \`customG: { ${/^G\d{1,3}(\.\d)?$/.test(code) ? code : "G…"}: … }\` in it, and see that nothing that is checked hangs on it.`;
}
