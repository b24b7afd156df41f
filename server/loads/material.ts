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

/** A program has one material and many holes: each answer is worked out once. */
function once<T>(work: (material: WorkMaterial) => Known<T>): (material: WorkMaterial | null) => Known<T> {
  const done = new WeakMap<WorkMaterial, Known<T>>();
  const none = unknown(NO_MATERIAL);
  return (material) => {
    if (material === null) return none;
    let found = done.get(material);
    if (found === undefined) {
      found = work(material);
      done.set(material, found);
    }
    return found;
  };
}

/** The shop's own values go alone; published lines go before averages of a group. */
export const forceLines = once<ForceLines>((material) => {
  const usable = material.kienzle.filter((k) => k.kc11 > 0 && Number.isFinite(k.kc11) && k.mc >= 0 && k.mc < 1);
  const own = usable.filter((k) => k.line === "own");
  const published = usable.filter((k) => k.line === "victor" || k.line === "koenig");
  const lines = own.length > 0 ? own : published.length > 0 ? published : usable;
  if (lines.length === 0) return unknown(`no specific cutting force kc1.1 is known for ${material.key}`);
  const weak = lines.every((k) => k.line === "group-average");
  return known({ lines, weak, group: material.group, key: material.key });
});

/** The handbook's family where the material names none: common practice, no source. */
const KIND_OF_GROUP: { readonly [G in IsoGroup]?: HandbookKind } = {
  P: "steel",
  M: "austenitic-stainless",
  K: "cast-iron",
};

/** The table lists steel from 200 to 400 HB; a step beyond its ends changes Kd by less than the methods differ. */
function nearSteelTable(hardnessHB: number | null): boolean {
  return hardnessHB !== null && hardnessHB >= 160 && hardnessHB <= 440;
}

export interface HandbookFactor extends WorkFactor {
  readonly kind: HandbookKind;
  /** Hardness unknown or well outside the handbook's table: the nearest value is an estimate. */
  readonly weak: boolean;
  /** The family was taken from the ISO group. */
  readonly byGroup: boolean;
  readonly hardnessHB: number | null;
  readonly key: string;
}

export const handbookFactor = once<HandbookFactor>((material) => {
  const named = material.handbookKind !== null && isHandbookKind(material.handbookKind) ? material.handbookKind : null;
  const kind = named ?? KIND_OF_GROUP[material.group];
  if (kind === undefined) return unknown(`the handbook gives no work-material factor Kd for ${material.key}`);
  const hardnessHB = material.hardnessHB;
  const factor = workFactor(kind, hardnessHB);
  const weak = !factor.inRange && !(kind === "steel" && nearSteelTable(hardnessHB));
  return known({ ...factor, weak, kind, byGroup: named === null, hardnessHB, key: material.key });
});
