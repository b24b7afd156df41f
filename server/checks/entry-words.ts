import type { EntryForm } from "../../grammar/entry.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { say, sayOne } from "../units/wording.ts";
import type { MetalHole } from "./cause.ts";
import { percent } from "./wording.ts";

/** What the hole enters, as told or as worked out from the part. */
export function entryOf({ shape, loads }: MetalHole, system: UnitSystem): string {
  if (shape.entry !== null) return entryWords(shape.entry.form, system);
  const { engagement } = loads;
  if (engagement === null || engagement.source !== "stock") return "";
  const inside = engagement.form?.kind === "flat" ? engagement.zones.find(({ where }) => where !== "entry") : undefined;
  if (inside !== undefined) {
    const level = (z: number): string => `${shape.axis.toUpperCase()} ${say(z, "length", system)}`;
    return `a void that it runs into between ${level(inside.fromZ)} and ${level(inside.toZ)}, by the stock and the holes drilled before`;
  }
  const form = engagement.form === null ? PARTLY_IN_METAL : entryWords(engagement.form, system);
  return `${form}, by the stock and the holes drilled before`;
}

/** None of the forms that have words. */
export const PARTLY_IN_METAL = "metal on one part of the turn only";

/** An entry or exit in words: `an incline of 30.0°`. */
export function entryWords(form: EntryForm, system: UnitSystem): string {
  switch (form.kind) {
    case "flat":
      return "a flat face";
    case "incline":
      return `an incline of ${sayOne(form.angleDeg, "angle", system)}`;
    case "edge-area":
      return `an edge with ${percent(form.areaShare)} of the hole in metal`;
    case "edge-axis":
      return form.insideMm >= 0
        ? `an edge, axis ${say(form.insideMm, "length", system)} inside`
        : `an edge, axis ${say(-form.insideMm, "length", system)} outside`;
    case "ridge":
      return `a ridge with flanks of ${sayOne(form.flankDeg, "angle", system)}${form.offsetMm === 0 ? "" : `, ${say(Math.abs(form.offsetMm), "length", system)} off its crest`}`;
    case "cylinder":
      return `a ${form.shape} cylinder of ${say(form.diameterMm, "length", system)}`;
    case "skin":
      return "cast or forged skin";
    case "chain":
      return `${form.sides === 2 ? "a web between two equal holes" : "an equal hole beside it"} at pitch ${say(form.pitchMm, "length", system)}`;
  }
}
