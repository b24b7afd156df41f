/** A workpiece from what the setup says. */
import { readEntry } from "../../../grammar/cut-notes.ts";
import type { EntryForm } from "../../../grammar/entry.ts";
import type { UnitSystem } from "../../units/quantities.ts";
import { findMaterial } from "../materials/find.ts";
import type { Infer } from "../schema/node.ts";
import type { WORKPIECE } from "../schema/workpieces.ts";
import type { EntryDeclaration, Vec3, WorkMaterial, Workpiece } from "../types.ts";
import type { Building } from "./context.ts";
import { notFound } from "./material.ts";
import { buildStock } from "./stock.ts";

type Written = Infer<typeof WORKPIECE>;

export function buildWorkpiece(
  name: string,
  written: Written,
  path: string,
  own: readonly WorkMaterial[],
  units: UnitSystem | null,
  building: Building,
): Workpiece {
  const material = written.material === undefined ? null : findMaterial(written.material, own);
  if (written.material !== undefined && material === null) {
    const why = notFound(written.material, own);
    building.findings.sayAt(`${path}.material`, why);
    building.findings.unknown.set(`${path}.material`, why);
  }
  const note = written.hardness?.note ?? "";
  if (note !== "") {
    // The conversion tables are for steels; other metals have tables of their own (ASTM E140).
    const steel = material === null || material.group === "P" || material.group === "H";
    building.notes.set(`${path}.hardness`, steel ? note : `${note}; for group ${material.group} an estimate`);
  }
  return {
    name,
    materialKey: written.material ?? null,
    hardnessHB: written.hardness?.hb ?? null,
    hardnessText: written.hardness?.text ?? null,
    workOffsets: written.workOffsets ?? new Map<string, Vec3>(),
    stock: written.stock === undefined ? null : buildStock(written.stock, `${path}.stock`, building),
    entries: buildEntries(written.entries ?? [], path, units, building),
    path,
  };
}

function buildEntries(
  written: NonNullable<Written["entries"]>,
  path: string,
  units: UnitSystem | null,
  building: Building,
): EntryDeclaration[] {
  const list: EntryDeclaration[] = [];
  written.forEach((e, i) => {
    const at = `${path}.entries[${i}]`;
    const form = words(e.entry, `${at}.entry`, units, building);
    const exit = words(e.exit, `${at}.exit`, units, building);
    // A broken place would put the entry on holes that it was not meant for.
    const misplaced = ["program", "tool", "wcs", "at", "region"].some((key) =>
      building.findings.unknown.has(`${at}.${key}`),
    );
    if (e.program === undefined || misplaced || (form === null && exit === null)) return;
    const region = e.region?.x === undefined || e.region.y === undefined ? null : { x: e.region.x, y: e.region.y };
    list.push({
      program: e.program,
      tool: e.tool ?? null,
      wcs: e.wcs?.toUpperCase() ?? null,
      at: e.at ?? null,
      region: e.at === undefined ? region : null,
      form: form ?? { kind: "flat" },
      exit,
      path: at,
    });
  });
  return list;
}

function words(
  written: string | undefined,
  path: string,
  units: UnitSystem | null,
  building: Building,
): EntryForm | null {
  if (written === undefined) return null;
  const form = readEntry(written, units === "inch" ? 25.4 : 1);
  if (units === null && JSON.stringify(form) !== JSON.stringify(readEntry(written, 25.4))) {
    building.findings.unknown.set(path, `${path}: the file's units could not be read, so its lengths have no unit`);
    return null;
  }
  if (typeof form !== "string") return form;
  building.findings.sayAt(path, form);
  building.findings.unknown.set(path, form);
  return null;
}
