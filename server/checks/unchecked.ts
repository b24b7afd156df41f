/** Reasons why something was not checked, gathered by what would put it right. */
import type { ResolvedSetup } from "../setup/types.ts";
import { listed } from "./wording.ts";

/** One unknown of one hole. */
export interface Unchecked {
  /** Key in the words of `WHAT`. */
  readonly field: string;
  readonly why: string;
  readonly tool: number | null;
}

/** What a program of a turning machine holds that a mill's dialect does not read. */
export const TURNING = "turning codes, X as a diameter and feed modes";

const WHAT: { readonly [field: string]: string } = {
  tool: "all loads",
  n: "speed",
  f: "feed per revolution",
  torque: "torque | power",
  thrust: "thrust",
  startZ: "depth and loads",
  endZ: "depth and loads",
  engagement: "entry",
  "engagement.allowedFeed": "feed at the entry",
  "limits.torque": "spindle torque and power limit",
  "limits.thrust": "axis thrust limit",
  "limits.rpm": "speed limit",
  window: "speed and feed window",
  "window.vc": "cutting speed window",
  "window.f": "feed window",
  coolant: "coolant",
  "coolant.flow": "coolant flow",
  "coolant.pressure": "coolant pressure",
  reach: "reach",
};

/** What to declare, by the field that is missing. */
const DECLARE: { readonly [field: string]: string } = {
  "limits.torque": "spindle.continuous",
  "limits.thrust": "axis.thrust",
  "limits.rpm": "spindle.maxRpm",
  window: "windows",
  "window.vc": "windows",
  "window.f": "windows",
  reach: "LU",
};

type Kind = "setup" | "machine" | "material" | "tool" | "table" | "method" | "other";

interface Item {
  readonly what: Set<string>;
  readonly why: string;
  readonly tools: Set<number>;
}

export class Reasons {
  readonly #setup: ResolvedSetup;
  readonly #kind: Kind;
  /** What is unknown and why, by reason without its tool. */
  readonly #items = new Map<string, Item>();
  readonly #declare = new Set<string>();
  readonly #tools = new Set<number>();

  constructor(kind: Kind, setup: ResolvedSetup) {
    this.#kind = kind;
    this.#setup = setup;
  }

  /** Reasons with one key are put right in one place and make one finding. */
  static keyOf(unchecked: Unchecked, setup: ResolvedSetup): string {
    const kind = kindOf(unchecked, setup);
    return kind === "other" ? `other:${unchecked.why}` : kind;
  }

  static of(unchecked: Unchecked, setup: ResolvedSetup): Reasons {
    return new Reasons(kindOf(unchecked, setup), setup);
  }

  add({ field, why, tool }: Unchecked): void {
    const ofTool = tool !== null && !field.startsWith("limits");
    const text = ofTool ? why.replace(new RegExp(` (for|of) T${tool}\\b`), "") : why;
    let item = this.#items.get(text);
    if (item === undefined) {
      item = { what: new Set(), why: text, tools: new Set() };
      this.#items.set(text, item);
    }
    for (const what of (WHAT[field] ?? field).split(" | ")) item.what.add(what);
    if (ofTool) {
      item.tools.add(tool);
      this.#tools.add(tool);
    }
    const declare =
      this.#kind === "tool" ? (/\b(NOF|SIG|LU|DC|PL|KAPR)\b/.exec(why)?.[1] ?? DECLARE[field]) : undefined;
    const coolant = /^the (pressure|flow) of (M\d+) is not declared$/.exec(why);
    const path = declare ?? DECLARE[field] ?? (coolant === null ? undefined : `coolant.${coolant[2]}.${coolant[1]}`);
    if (path !== undefined) this.#declare.add(path);
  }

  message(): string {
    const items = [...this.#items.values()].map(({ what, why, tools }) => {
      const named = [...tools].filter((tool) => !why.includes(`T${tool}`)).map((tool) => `T${tool}`);
      return `${listed([...what])}${named.length === 0 ? "" : ` of ${listed(named)}`} (${why})`;
    });
    const out = this.#wayOut();
    return `Not checked: ${items.join("; ")}.${out === "" ? "" : ` Way out: ${out}.`}`;
  }

  #wayOut(): string {
    const { machine, file } = this.#setup;
    const paths = listed([...this.#declare].map((path) => `\`${path}\``));
    const tools = listed([...this.#tools].map((tool) => `T${tool}`));
    switch (this.#kind) {
      case "setup":
        return "a swarfline.yaml beside the program that names machine, tools and workpiece";
      case "machine":
        return machine === null
          ? "a machine for this program under `programs:` of the setup"
          : `${paths === "" ? "the values named" : paths} of machine ${machine.name} in the setup`;
      case "material":
        return this.#setup.material === null
          ? "`material` of the workpiece in the setup, or a note such as (CUT MATERIAL C45E HB 200)"
          : `the missing value for ${this.#setup.material.key} under \`materials:\` of the setup`;
      case "tool":
        return `${paths === "" ? "the data named" : paths} of ${tools} in the tool table`;
      case "table":
        return `${tools === "" ? "a tool" : tools} in a tool table${file === null ? " of a setup" : " that the setup names for this program"}`;
      case "method":
        return "the load meter at the first hole: what it reads is a limit of its own";
      default:
        return [...this.#items.values()].map(byHand).find((out) => out !== "") ?? "";
    }
  }
}

/** What a code that turns or scales the program lacks. */
const IN_BLOCK: { readonly [what: string]: string } = {
  "the angle of G68": "R in its block",
  "the centre of G68": "the centre in its block",
  "the factor of G51": "P, or I, J and K, in its block",
  "the centre of G51": "the centre in its block",
  "every position in G68": "check these positions by hand",
};

/** What to do about a reason that no declaration puts right. */
function byHand({ what, why }: Item): string {
  if (why === "no tool is known to be in the spindle") return "T… M6 before the hole";
  if (why.includes("`cycleR`")) return "`cycleR: absolute` or `from-initial` under `dialect` of the machine";
  if (what.has("coolant")) {
    const code = /^M\d+/.exec(why)?.[0];
    return code === undefined
      ? "a plain number in its place"
      : `\`coolant: { ${code}: … }\` of the machine if it is a coolant code, else \`customM: { ${code}: … }\` of the dialect`;
  }
  if (why.startsWith("the units are not known"))
    return "G21 or G20 at the top of the program, or `defaultUnits` of the dialect";
  if (why.startsWith("G93 ")) return "G94 or G95, and an F in it";
  if (/levels of a cycle$|^G68 with /.test(why))
    return "the code cancelled before the cycle, or a factor of 1 along the drill's axis";
  const inBlock = [...what].map((name) => IN_BLOCK[name]).find((out) => out !== undefined);
  if (inBlock !== undefined) return inBlock;
  if (what.has("depth and loads")) return "a plain number for the level, or a move to a known height before it";
  if (why.includes("`workOffsets`")) return "`workOffsets:` of the workpiece, with both work systems";
  if (why.startsWith("nothing of the declared part"))
    return "the position, the work system or `stock:` of the workpiece";
  if (what.has("entry")) return "another entry in the note, or another depth";
  if (what.has("speed") || what.has("feed per revolution")) return "S and F as plain numbers";
  if (/^[A-Z]$/.test([...what][0] ?? "")) return "a plain number in its place";
  return what.has(TURNING) ? "`dialect: generic-turn` of the machine, or check X, S and F by hand" : "";
}

function kindOf({ field, why, tool }: Unchecked, setup: ResolvedSetup): Kind {
  if (/^no method for the/.test(why)) return "method";
  const bare = setup.file === null;
  if (why.startsWith("not declared:") || /^the (pressure|flow) of M\d+ is not declared$/.test(why))
    return bare ? "setup" : "machine";
  if (why.includes("no work material is declared")) return bare ? "setup" : "material";
  if (setup.material !== null && / known for | factor Kd for /.test(why) && why.includes(setup.material.key))
    return "material";
  const known = tool === null ? undefined : setup.tools.get(tool);
  const asksTool =
    field === "tool" || field === "reach" || field.startsWith("window") || / of T\d+\b|for T\d+\b/.test(why);
  if (!asksTool || tool === null) return "other";
  if (bare) return "setup";
  return known === undefined ? "table" : "tool";
}
