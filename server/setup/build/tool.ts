/** A tool from one entry of a tool table. */
import { findMaterial, nearestMaterial } from "../materials/find.ts";
import type { Infer } from "../schema/node.ts";
import type { TOOL } from "../schema/tools.ts";
import type { EntryData, Observed, Tool, Window, WorkMaterial } from "../types.ts";
import { assumed, type Building, byDefault } from "./context.ts";

type Written = Infer<typeof TOOL>;

/** Null: without a number or a diameter it is no tool to calculate with; the reason is among the unknown values. */
export function buildTool(
  written: Written,
  path: string,
  own: readonly WorkMaterial[],
  building: Building,
): Tool | null {
  const { T, DC } = written;
  if (T === undefined) return null;
  if (DC === undefined) {
    const why = building.findings.unknown.get(`${path}.DC`);
    if (why === undefined)
      building.findings.sayAt(path, "expected a diameter DC, got none: nothing can be calculated for this tool");
    building.findings.unknown.set(path, why ?? "no diameter DC declared");
    return null;
  }
  if (written.family === undefined) {
    const broken = building.findings.unknown.has(`${path}.family`);
    if (!broken) building.findings.sayAt(path, "no family declared; taken as twist-hss until it is", "warning");
    byDefault(building, `${path}.family`, "assumed: no family could be read, taken as twist-hss");
  }
  for (const [key, text] of DEFAULTS)
    if (written[key] === undefined) byDefault(building, `${path}.${key}`, assumed(building, `${path}.${key}`, text));
  return {
    T,
    name: written.name ?? null,
    family: written.family ?? "twist-hss",
    familyAssumed: written.family === undefined,
    DC,
    SIG: written.SIG ?? null,
    LU: written.LU ?? null,
    PL: written.PL ?? null,
    NOF: written.NOF ?? null,
    ZEFP: written.ZEFP ?? null,
    KAPR: written.KAPR ?? null,
    RPMX: written.RPMX ?? null,
    hand: written.hand ?? "right",
    edge: written.edge ?? null,
    point: written.point ?? null,
    r1: written.r1 ?? null,
    coolant: written.coolant ?? null,
    minPressure: written.minPressure ?? null,
    minFlow: written.minFlow ?? null,
    lead: written.lead ?? null,
    H: written.H ?? [],
    windows: buildWindows(written.windows ?? [], path, own, building),
    entry: buildEntry(written.entry),
    price: written.price ?? null,
    edges: written.edges ?? null,
    holesPerEdge: written.holesPerEdge ?? null,
    observed: buildObserved(written.observed ?? [], path),
    path,
    assumed: false,
  };
}

const DEFAULTS: readonly (readonly [key: "hand" | "H", text: string])[] = [
  ["hand", "default, right"],
  ["H", "default, its T number"],
];

function buildWindows(
  written: NonNullable<Written["windows"]>,
  path: string,
  own: readonly WorkMaterial[],
  building: Building,
): Window[] {
  return written.map((window, i) => {
    const name = window.material;
    const found = name === undefined ? null : findMaterial(name, own);
    if (name !== undefined && found === null) {
      const near = nearestMaterial(name, own);
      const hint = near === null ? "" : `; ${near}?`;
      building.findings.sayAt(`${segment(building, path, name, i)}.material`, `no material ${name}${hint}`, "warning");
    }
    // The table's own name, so that a window for `AISI 4140` and one for `42CrMo4` are one.
    const material = found?.key ?? name ?? null;
    if (name !== undefined && material !== null && material !== name) {
      building.findings.alias(segment(building, path, name, i), `${path}.windows.${material}`);
    }
    return { group: window.group ?? null, material, vc: window.vc ?? null, f: window.f ?? null };
  });
}

/** Path of a window as the reader named it. */
function segment(building: Building, path: string, name: string, index: number): string {
  const named = `${path}.windows.${name}`;
  return building.findings.places.has(named) ? named : `${path}.windows[${index}]`;
}

function buildEntry(written: Written["entry"]): EntryData {
  return {
    maxIncline: written?.maxIncline ?? null,
    light: written?.light ?? null,
    medium: written?.medium ?? null,
    heavy: written?.heavy ?? null,
    extreme: written?.extreme ?? null,
    fMin: written?.fMin ?? null,
  };
}

function buildObserved(written: NonNullable<Written["observed"]>, path: string): Observed[] {
  const list: Observed[] = [];
  written.forEach((o, i) => {
    const { program, operation, load, idle, meter, wear } = o;
    // A reading of which a part is broken narrows nothing.
    if (
      program === undefined ||
      operation === undefined ||
      load === undefined ||
      idle === undefined ||
      meter === undefined ||
      wear === undefined
    )
      return;
    list.push({ program, operation, load, idle, meter, wear, path: `${path}.observed[${i}]` });
  });
  return list;
}
