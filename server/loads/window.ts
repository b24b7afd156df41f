/** The speed and feed window that the tool declares for the material. */
import type { Tool, Window, WorkMaterial } from "../setup/types.ts";
import { known, unknown } from "./known.ts";
import type { Known } from "./types.ts";

export type Range = readonly [number, number, number];

export interface MatchedWindow {
  readonly vc: Range | null;
  readonly f: Range | null;
  /** Fields of the tool the two were read from: `windows.P.vc`. */
  readonly vcField: string | null;
  readonly fField: string | null;
  /** `group P` or the material's name. */
  readonly matched: string;
}

const plain = (text: string): string => text.toLowerCase().replace(/[\s_-]+/g, "");

/**
 * A window for the material itself goes before one for its group, for speed and feed apart: a window that names the
 * material but only its speed takes the group's feed.
 */
export function windowFor(tool: Tool, material: WorkMaterial | null): Known<MatchedWindow> {
  if (tool.windows.length === 0) return unknown(`no speed and feed window is declared for T${tool.T}`);
  if (material === null) {
    return unknown(`no work material is declared, so no window of T${tool.T} can be chosen`);
  }
  const names = [material.key, ...material.designations].map(plain);
  const byMaterial = (w: Window) => w.material !== null && names.includes(plain(w.material));
  const byGroup = (w: Window) => w.material === null && w.group === material.group;
  const ranked = [...indexes(tool, byMaterial), ...indexes(tool, byGroup)];
  const vc = ranked.find((i) => usable(tool.windows[i]?.vc));
  const f = ranked.find((i) => usable(tool.windows[i]?.f));
  if (vc === undefined && f === undefined) {
    return unknown(`no feed window for ${material.key} (group ${material.group}) is declared for T${tool.T}`);
  }
  const named = ranked[0] !== undefined && tool.windows[ranked[0]]?.material;
  return known({
    vc: vc === undefined ? null : (tool.windows[vc]?.vc ?? null),
    f: f === undefined ? null : (tool.windows[f]?.f ?? null),
    vcField: fieldOf(tool, vc, "vc"),
    fField: fieldOf(tool, f, "f"),
    matched: named ? named : `group ${material.group}`,
  });
}

function indexes(tool: Tool, accept: (w: Window) => boolean): number[] {
  const found: number[] = [];
  tool.windows.forEach((w, i) => {
    if (accept(w)) found.push(i);
  });
  return found;
}

function usable(range: Range | null | undefined): boolean {
  return range?.every((v) => Number.isFinite(v) && v > 0) ?? false;
}

/** Windows are keyed by what they are for in the setup's paths. */
function fieldOf(tool: Tool, index: number | undefined, field: "vc" | "f"): string | null {
  const window = index === undefined ? undefined : tool.windows[index];
  return window === undefined ? null : `windows.${window.material ?? window.group ?? index}.${field}`;
}
