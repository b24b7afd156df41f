/** How the drill meets the metal, and what feed that allows. */
import { say } from "../../units/wording.ts";
import type { EntryForm, HoleLoads, UnitSystem } from "../model.ts";
import { paragraphs, soft } from "./markdown.ts";

export function entryLine(loads: HoleLoads, system: UnitSystem): string {
  const { engagement } = loads;
  if (engagement === null) return unknownEntry(loads);
  if (engagement.class === "none" && !engagement.skin) return "";
  const kind =
    engagement.skin && engagement.class === "none" ? "through a skin" : `interrupted, class ${engagement.class}`;
  const allowed =
    engagement.allowedFeed === null ? "no feed fits" : `allows ${say(engagement.allowedFeed, "feedPerRev", system)}`;
  const why = engagement.allowedWhy === "" ? "" : `, ${engagement.allowedWhy}`;
  const advice = engagement.advice === "" ? "" : ` Advice: ${engagement.advice}.`;
  const zones = engagement.zones
    .map((zone) => `${zone.class} from ${say(zone.fromZ, "length", system)} to ${say(zone.toZ, "length", system)}`)
    .join("; ");
  return paragraphs(
    `**Entry ${kind}**: ${soft(`${allowed}${why}.${advice}`)}`,
    zones !== "" && soft(`Zones by height of the tip: ${zones}.`),
  );
}

/** Silence would read as a flat face. Without a tool or a depth nothing is known, which is told once. */
function unknownEntry({ unknown, shape }: HoleLoads): string {
  const why = unknown.engagement;
  if (why === undefined || why === unknown.tool || why === unknown.depthRatio || shape.endZ === null) return "";
  return `**Entry not known**: ${soft(`${why}.`)}`;
}

/** An entry form in words, with its lengths in both systems. */
export function formText(form: EntryForm, system: UnitSystem): string {
  const length = (mm: number): string => say(mm, "length", system);
  switch (form.kind) {
    case "flat":
      return "a flat face square to the drill";
    case "incline":
      return `a face inclined ${form.angleDeg}° from square to the drill`;
    case "edge-area":
      return `an edge: ${Math.round(form.areaShare * 1000) / 10} % of the hole's area is in metal`;
    case "edge-axis":
      return form.insideMm >= 0
        ? `a straight edge, the drill's axis ${length(form.insideMm)} inside the metal`
        : `a straight edge, the drill's axis ${length(-form.insideMm)} outside the metal`;
    case "ridge":
      return `a ridge with flanks falling ${form.flankDeg}° on both sides, the axis ${length(form.offsetMm)} from its crest`;
    case "cylinder": {
      const offset = form.offsetMm === 0 ? "" : `, the axis ${length(form.offsetMm)} off its centre line`;
      return `a ${form.shape} cylinder of ${length(form.diameterMm)} across the drill${offset}`;
    }
    case "skin":
      return "a cast or forged skin";
    case "chain":
      return form.sides === 1
        ? `a chain: one equal hole already drilled at a pitch of ${length(form.pitchMm)}`
        : `a web between two equal holes already drilled at a pitch of ${length(form.pitchMm)}`;
  }
}
