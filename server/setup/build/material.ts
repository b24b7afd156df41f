/** Work materials of the shop's own, and the material in force. */

import { parseHardness } from "../hardness.ts";
import { findMaterial, nearestMaterial } from "../materials/find.ts";
import type { MATERIALS } from "../schema/materials.ts";
import type { Infer } from "../schema/node.ts";
import type { KienzleValues, ResolvedSetup, WorkMaterial } from "../types.ts";
import { type Building, byDefault } from "./context.ts";

type Written = Infer<typeof MATERIALS>;

export function buildMaterials(written: Written | undefined, building: Building): WorkMaterial[] {
  const list: WorkMaterial[] = [];
  for (const [key, m] of written ?? []) {
    const path = `materials.${key}`;
    const like = m.like === undefined ? null : findMaterial(m.like, list);
    if (m.like !== undefined && like === null) building.findings.sayAt(`${path}.like`, notFound(m.like, list));
    const group = m.group ?? like?.group;
    if (group === undefined) {
      building.findings.unknown.set(path, `no group could be read for ${key}`);
      continue;
    }
    if (m.group !== undefined && like !== null && like.group !== m.group) {
      building.findings.sayAt(
        `${path}.group`,
        `group ${m.group} differs from ${like.key}, which is ${like.group}; ${m.group} counts`,
        "warning",
      );
    }
    if (m.hardness !== undefined && m.hardness.note !== "") building.notes.set(`${path}.hardness`, m.hardness.note);
    const brokenForce = building.findings.unknown.has(`${path}.kc11`) || building.findings.unknown.has(`${path}.mc`);
    list.push({
      key,
      group,
      designations: m.designations ?? [],
      condition: m.condition ?? like?.condition ?? "",
      kienzle: kienzle(m, brokenForce ? null : like),
      hardnessHB:
        m.hardness?.hb ?? (building.findings.unknown.has(`${path}.hardness`) ? null : (like?.hardnessHB ?? null)),
      handbookKind: m.handbook ?? like?.handbookKind ?? kindOfGroup(group),
      combustible: m.combustible ?? like?.combustible ?? null,
      path,
    });
    if (like !== null) byDefault(building, `${path}.like`, `built-in table: ${like.key}`);
  }
  return list;
}

function kienzle(
  m: Written extends ReadonlyMap<string, infer M> ? M : never,
  like: WorkMaterial | null,
): readonly KienzleValues[] {
  if (m.kc11 === undefined || m.mc === undefined) return like?.kienzle ?? [];
  return [
    {
      kc11: m.kc11,
      mc: m.mc,
      line: "own",
      source: m.source ?? "the shop's own value, no source named",
      evidence: "shop",
    },
  ];
}

/** Only where the whole group is one kind to the handbook. */
function kindOfGroup(group: WorkMaterial["group"]): string | null {
  return group === "P" ? "steel" : group === "K" ? "cast-iron" : group === "M" ? "austenitic-stainless" : null;
}

export function notFound(name: string, own: readonly WorkMaterial[]): string {
  const near = nearestMaterial(name, own);
  const hint =
    near === null
      ? "; write a designation of the built-in table (EN, W.-Nr., AISI or UNS) or declare it under materials:"
      : `; ${near}?`;
  return `no material ${name}${hint}`;
}

/**
 * The material that a cut note names, with the hardness of the note where it has one.
 * @returns the material, or a sentence that says what was not understood
 */
export function materialByName(
  name: string,
  hardness: string | null,
  setup: ResolvedSetup,
): { readonly material: WorkMaterial } | string {
  const own = setup.materials ?? [];
  const found = findMaterial(name, own);
  if (found === null) return notFound(name, own);
  if (hardness === null) return { material: found };
  const parsed = parseHardness(hardness);
  return typeof parsed === "string" ? parsed : { material: { ...found, hardnessHB: parsed.hb } };
}
