/**
 * What a family may do in an interrupted entry: share of the nominal feed, or that it must not, and what to do instead.
 * The tool's own data goes before the shop's `practice:`, and that before common practice (no source).
 */
import type { EntryForm } from "../../grammar/entry.ts";
import type { DrillFamily, ResolvedSetup, Tool, WorkMaterial } from "../setup/types.ts";
import { COMMON_PRACTICE } from "./provenance.ts";
import type { EngagementClass } from "./types.ts";

export type Row = Exclude<EngagementClass, "none"> | "skin";
export type Column = "indexable" | "solid-carbide" | "twist-hss" | "spade";

export interface Ruling {
  /** null: no feed, see `why`. */
  readonly share: number | null;
  /** Setup path of the share; null: common practice. */
  readonly path: string | null;
  /** Why there is no share, or where it comes from. */
  readonly why: string;
  readonly forbidden: "no" | "warning" | "error";
  readonly advice: string;
}

/** Share where the tool's data allows the entry but gives no share and the table has none: common practice, no source. */
const ALLOWED_BY_TOOL = 0.35;
/** A drill counts as "up to 3xD" to here: a tenth of D for point and breakthrough. */
export const SHORT_BODY = 3.1;
/** Offset of a ridge from the axis, in D, above which a two-insert drill is pushed aside: common practice, no source. */
const RIDGE_OFFSET = 0.1;

const COLUMNS: { readonly [F in DrillFamily]?: Column } = {
  indexable: "indexable",
  "solid-carbide": "solid-carbide",
  "twist-hss": "twist-hss",
  spade: "spade",
};

export function columnOf(family: DrillFamily): Column | null {
  return COLUMNS[family] ?? null;
}

export interface EntryCase {
  readonly tool: Tool;
  readonly column: Column;
  readonly row: Row;
  /** null: none of the forms that have words. */
  readonly form: EntryForm | null;
  readonly material: WorkMaterial | null;
  /** Length of the drill's body over D. */
  readonly bodyRatio: number;
}

/** Degrees: a plane told by a normal of three digits is no steeper than its drawing says. */
export const ANGLE_SLACK = 0.05;

export function ruleFor(entry: EntryCase, setup: ResolvedSetup): Ruling {
  const ruling = ruleOfClass(entry, setup);
  // A share that the tool declares is for the class; that the ridge pushes the drill aside stays.
  if (ruling.forbidden !== "no" || ridgeBeside(entry.tool, entry.form) === null) return ruling;
  return {
    ...ruling,
    forbidden: "warning",
    advice: "centre the ridge on the drill axis, within 0.1 D, or mill it off",
  };
}

/**
 * Largest offset of a ridge from the axis of a two-insert drill, mm, where this one stands farther off; null where it
 * does not, or the drill or entry is another.
 */
export function ridgeBeside(tool: Tool, form: EntryForm | null): number | null {
  if (form?.kind !== "ridge" || tool.family !== "indexable") return null;
  const most = RIDGE_OFFSET * tool.DC;
  return Math.abs(form.offsetMm) > most ? most : null;
}

function ruleOfClass(entry: EntryCase, setup: ResolvedSetup): Ruling {
  const { tool, form, row } = entry;
  const limit = tool.entry.maxIncline;
  if (form?.kind === "incline" && limit !== null) {
    if (form.angleDeg > limit + ANGLE_SLACK) return tooSteep(tool, form.angleDeg, limit);
    return allowedByTool(entry, setup, `the tool may enter inclines to ${limit}°`);
  }
  const own = row === "skin" ? null : tool.entry[row];
  if (own !== null) return declaredShare(tool, row, own);
  const tabled = tableShare(entry, setup);
  if (tabled.share === null) return mustNot(entry, tabled.path);
  if (row === "extreme" && entry.column === "indexable") return extremeTwoInsert(entry, tabled.share, tabled.path);
  return {
    share: tabled.share,
    path: tabled.path,
    why: `class ${row}`,
    forbidden: "no",
    advice: adviceFor(entry),
  };
}

function tooSteep(tool: Tool, angleDeg: number, limit: number): Ruling {
  return {
    share: null,
    path: `${tool.path}.entry.maxIncline`,
    why: `T${tool.T} may enter inclines to ${limit}°, this one has ${angleDeg}°`,
    forbidden: "error",
    advice: "mill a flat or spot-face first, or take a drill made for this incline",
  };
}

function declaredShare(tool: Tool, row: Row, share: number): Ruling {
  return {
    share,
    path: `${tool.path}.entry.${row}`,
    why: `class ${row}, declared for T${tool.T}`,
    forbidden: "no",
    advice: "",
  };
}

function allowedByTool(entry: EntryCase, setup: ResolvedSetup, why: string): Ruling {
  const { tool, row } = entry;
  const own = row === "skin" ? null : tool.entry[row];
  if (own !== null) return declaredShare(tool, row, own);
  const tabled = tableShare(entry, setup);
  const longBody = row === "extreme" && entry.column === "indexable" && entry.bodyRatio > SHORT_BODY;
  const share = tabled.share === null || longBody ? ALLOWED_BY_TOOL : tabled.share;
  return {
    share,
    path: tabled.share === null ? null : tabled.path,
    why: `class ${row}; ${why}`,
    forbidden: "no",
    advice: adviceFor(entry),
  };
}

/** The shop's own table, which starts as common practice. */
function tableShare(
  entry: EntryCase,
  setup: ResolvedSetup,
): { readonly share: number | null; readonly path: string | null } {
  const path = `practice.${entry.row}.${entry.column}`;
  const byShop = setup.origins.get(path)?.kind === "file";
  const share = setup.practice.share[entry.row][entry.column];
  const tough = entry.material !== null && (entry.material.group === "M" || entry.material.group === "S");
  if (!byShop && tough && entry.row === "light" && entry.column === "indexable") return { share: 0.8, path: null };
  return { share, path: byShop ? path : null };
}

function extremeTwoInsert(entry: EntryCase, share: number, path: string | null): Ruling {
  if (entry.bodyRatio > SHORT_BODY) {
    return {
      share: null,
      path: null,
      why: `class extreme with a body of ${entry.bodyRatio.toFixed(1)}xD needs a share declared for T${entry.tool.T} (entry.extreme)`,
      forbidden: "error",
      advice: "take a drill of 3xD or shorter, or spot-face or plunge mill first",
    };
  }
  return {
    share,
    path,
    why: "class extreme",
    forbidden: "warning",
    advice: "check the tool's own entry data for this entry",
  };
}

/** Cells without a feed: an error where the table says so (extreme), else a warning with the way out. */
function mustNot(entry: EntryCase, path: string | null): Ruling {
  const { row, column, form, tool } = entry;
  const ridge = form?.kind === "ridge";
  // A flat face leaves the rest of the hole in air: at an edge milling flat is no way out.
  const edge = form?.kind === "edge-area" || form?.kind === "edge-axis";
  const otherDrill = "plunge mill it, or take a two-insert drill of 3xD or shorter";
  const words: { readonly [C in Column]: string } = {
    indexable:
      row === "extreme"
        ? "spot-face or plunge mill first"
        : "take a shorter body and a stronger edge, or spot-face first",
    "solid-carbide":
      row === "extreme"
        ? edge
          ? otherDrill
          : "mill flat first"
        : ridge
          ? "face first"
          : "spot-face first, or declare entry.heavy for the tool",
    "twist-hss":
      row === "extreme"
        ? `guide it by a bush${edge ? "" : ", or mill flat first"}`
        : "spot first, or guide it by a bush",
    spade:
      row === "extreme"
        ? edge
          ? otherDrill
          : "mill flat first"
        : ridge
          ? "a spade drill is not made for a ridge: mill first"
          : "mill first",
  };
  return {
    share: null,
    path,
    why: `class ${row}: ${WORDS[column]} must not (${path === null ? COMMON_PRACTICE : "practice of the shop"})`,
    forbidden: row === "extreme" ? "error" : "warning",
    advice:
      column === "twist-hss" && row === "extreme"
        ? `${words[column]}; with a bush declare entry.extreme for T${tool.T}`
        : words[column],
  };
}

const WORDS: { readonly [C in Column]: string } = {
  indexable: "a two-insert drill",
  "solid-carbide": "a solid carbide drill",
  "twist-hss": "an HSS twist drill",
  spade: "a spade drill",
};

function adviceFor({ row, column, form }: EntryCase): string {
  switch (row) {
    case "light":
      return "";
    case "medium":
      return "stronger edge; coolant on before contact";
    case "heavy":
      if (column === "twist-hss")
        return form?.kind === "ridge" ? "spot first, or a stub drill or a bush" : "stub drill or bush";
      return "short body, stronger (lower-rake) edge";
    case "extreme":
      return "spot-face, plunge mill, or drill in another order";
    case "skin":
      return column === "twist-hss"
        ? "cutting speed x 0.75 until the corner is 1 to 2 mm below the skin; do not let it rub"
        : "until the corner is 1 to 2 mm below the skin; do not let it rub";
  }
}
