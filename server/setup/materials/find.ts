/** Finding a work material by any designation, however it is spelt. */
import { nearest } from "../read/nearest.ts";
import type { WorkMaterial } from "../types.ts";
import { averages } from "./averages.ts";
import { others } from "./others.ts";
import { steels } from "./steels.ts";

/** The built-in table; earlier rows win where two share a designation. */
export const builtInMaterials: readonly WorkMaterial[] = [...steels, ...others, ...averages];

/** Letters, digits and points only, capitals: `AISI 4140`, `aisi-4140` and `Aisi4140` are one word. */
export function designationKey(name: string): string {
  return name
    .toUpperCase()
    .replace(/[\s\-_/,()"']/g, "")
    .replace(/^VDI3323(GROUP)?/, "VDI");
}

/** Standards' names that stand in front of a designation and say nothing about which material it is. */
const PREFIX =
  /^(AISISAE|SAEAISI|AISI|SAE|UNS|ASTM|ENISO|ENAW|ENAC|EN|DIN|W\.?NR\.?|MAT\.?NR\.?|JIS|AW|ALLOY|TYPE)(?=[A-Z0-9])/;
/** Conditions behind an EN designation: `42CrMo4+QT`. */
const SUFFIX = /\+(QT|N|A|C|U|S|SH|NT|AT|T\d+)$/;

/** The spellings under which a designation is looked up, the most exact first. */
function forms(name: string): string[] {
  const key = designationKey(name);
  const bare = key.replace(PREFIX, "");
  return [...new Set([key, bare, bare.replace(SUFFIX, "")])];
}

function indexOf(materials: readonly WorkMaterial[]): ReadonlyMap<string, WorkMaterial> {
  const index = new Map<string, WorkMaterial>();
  for (const material of materials) {
    for (const name of [material.key, ...material.designations]) {
      for (const key of [designationKey(name), designationKey(name).replace(PREFIX, "")])
        if (!index.has(key)) index.set(key, material);
    }
  }
  return index;
}

const builtInIndex = indexOf(builtInMaterials);

/** The material of that designation: the user's own first, then the built-in table. Null: none. */
export function findMaterial(name: string, own: readonly WorkMaterial[] = []): WorkMaterial | null {
  const ownIndex = indexOf(own);
  for (const form of forms(name)) {
    const found = ownIndex.get(form) ?? builtInIndex.get(form);
    if (found !== undefined) return found;
  }
  return null;
}

/** The nearest designation to one that was not found, or null. */
export function nearestMaterial(name: string, own: readonly WorkMaterial[] = []): string | null {
  const names = [...own, ...builtInMaterials].flatMap((material) => [material.key, ...material.designations]);
  return nearest(name, names);
}
