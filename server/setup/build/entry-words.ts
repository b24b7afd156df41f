import type { EntryForm } from "../../../grammar/entry.ts";
import type { UnitSystem } from "../../units/quantities.ts";

export function readEntryWords(words: string, units: UnitSystem): EntryForm | string {
  void units;
  const incline = /^INCLINE (\d+(?:\.\d+)?) DEG$/i.exec(words);
  return incline === null ? `not understood: ${words}` : { kind: "incline", angleDeg: Number(incline[1]) };
}
