/** What the force models take from the work material. */
import { type HandbookKind, isHandbookKind, type WorkFactor, workFactor } from "../mechanics/handbook.ts";
import type { IsoGroup, KienzleValues, WorkMaterial } from "../setup/types.ts";
import { known, unknown } from "./known.ts";
import type { Known } from "./types.ts";

export interface ForceLines {
  readonly lines: readonly KienzleValues[];
  /** Only averages of a whole group are known. */
  readonly weak: boolean;
  readonly group: IsoGroup;
  readonly key: string;
}

const NO_MATERIAL = "no work material is declared";

/** The shop's own values go alone; published lines go before averages of a group. */
export function forceLines(material: WorkMaterial | null): Known<ForceLines> {
  if (material === null) return unknown(NO_MATERIAL);
  const usable = material.kienzle.filter((k) => k.kc11 > 0 && Number.isFinite(k.kc11) && k.mc >= 0 && k.mc < 1);
  const own = usable.filter((k) => k.line === "own");
  const published = usable.filter((k) => k.line === "victor" || k.line === "koenig");
  const lines = own.length > 0 ? own : published.length > 0 ? published : usable;
  if (lines.length === 0) return unknown(`no specific cutting force kc1.1 is known for ${material.key}`);
  const weak = lines.every((k) => k.line === "group-average");
  return known({ lines, weak, group: material.group, key: material.key });
}

/** Names of the material table for the families of the handbook's table. */
const KIND_NAMES: { readonly [name: string]: HandbookKind } = {
  "resulfurised-steel": "steel-free-cutting",
  "leaded-brass": "brass-leaded",
  "austenitic-stainless": "stainless-austenitic",
  "nickel-alloy": "nickel",
};

function kindNamed(name: string | null): HandbookKind | null {
  if (name === null) return null;
  return isHandbookKind(name) ? name : (KIND_NAMES[name] ?? null);
}

/** The handbook's family where the material names none: common practice, no source. */
const KIND_OF_GROUP: { readonly [G in IsoGroup]?: HandbookKind } = {
  P: "steel",
  M: "stainless-austenitic",
  K: "cast-iron",
};

export interface HandbookFactor extends WorkFactor {
  readonly kind: HandbookKind;
  /** The family was taken from the ISO group. */
  readonly byGroup: boolean;
  readonly hardnessHB: number | null;
  readonly key: string;
}

export function handbookFactor(material: WorkMaterial | null): Known<HandbookFactor> {
  if (material === null) return unknown(NO_MATERIAL);
  const named = kindNamed(material.handbookKind);
  const kind = named ?? KIND_OF_GROUP[material.group];
  if (kind === undefined) return unknown(`the handbook gives no work-material factor Kd for ${material.key}`);
  const hardnessHB = material.hardnessHB;
  return known({ ...workFactor(kind, hardnessHB), kind, byGroup: named === null, hardnessHB, key: material.key });
}
