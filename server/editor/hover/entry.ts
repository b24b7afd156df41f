/** How the drill meets the metal, and what feed that allows. */

import { hardestEntry } from "../../pictures/engagement-of-hole.ts";
import { say } from "../../units/wording.ts";
import type { Engagement, EntryForm, HoleLoads, UnitSystem } from "../model.ts";
import { engagementPictures } from "./engagement-pictures.ts";
import { paragraphs, soft } from "./markdown.ts";
import { nameOfBlock, type Ruled, type Target } from "./target.ts";

/**
 * Words and pictures for the hole that a hover is about. Where another of the holes that the word rules enters harder, that
 * one too, and it is drawn: the hole of the largest load is often a whole one.
 */
export function entryOfRuled({ review, system }: Target, ruled: readonly Ruled[], shown: Ruled): string {
  const found = hardestEntry([shown, ...ruled]);
  const hardest = found === null || classOf(found) === classOf(shown) ? shown : found;
  const where = nameOfBlock(review, review.execution.hole(hardest.firstHole).block);
  return paragraphs(
    entryLine(shown.loads, system),
    hardest !== shown && `Hardest entry of these holes, ${where}:`,
    hardest !== shown && entryLine(hardest.loads, system),
    engagementPictures(hardest.loads, system),
  );
}

const classOf = ({ loads }: Ruled): string | undefined => loads.engagement?.class;

export function entryLine(loads: HoleLoads, system: UnitSystem): string {
  const { engagement } = loads;
  if (engagement === null) return unknownEntry(loads);
  const zones = zonesLine(engagement, system);
  if (engagement.class === "none" && !engagement.skin) {
    const { exit } = loads.shape;
    const through =
      exit === null
        ? ""
        : ` Leaves through ${formText(exit.form, system)}, ${TOLD_BY[exit.span === null ? "entry" : "note"]}.`;
    return zones === "" ? "" : `**Exit interrupted**: ${soft(`${zones}${through}`)}`;
  }
  const kind =
    engagement.skin && engagement.class === "none" ? "through a skin" : `interrupted, class ${engagement.class}`;
  const allowed =
    engagement.allowedFeed === null ? "no feed fits" : `allows ${say(engagement.allowedFeed, "feedPerRev", system)}`;
  const why = engagement.allowedWhy === "" ? "" : `, ${engagement.allowedWhy}`;
  const advice = engagement.advice === "" ? "" : ` Advice: ${engagement.advice}.`;
  return paragraphs(
    `**Entry ${kind}**: ${soft(`${enteredInto(engagement, system)}${allowed}${why}.${advice}`)}`,
    soft(zones),
  );
}

const ZONES_TOLD = 5;

function zonesLine({ zones, allowedFeed }: Engagement, system: UnitSystem): string {
  if (zones.length === 0) return "";
  const told = zones.slice(0, ZONES_TOLD).map((zone) => {
    const from = `${zone.where} ${zone.class === "none" ? "through skin" : zone.class} from ${say(zone.fromZ, "length", system)}`;
    const feed =
      zone.allowedFeed === allowedFeed
        ? ""
        : zone.allowedFeed === null
          ? ` (${zone.allowedWhy})`
          : `, at most ${say(zone.allowedFeed, "feedPerRev", system)}`;
    return `${from} to ${say(zone.toZ, "length", system)}${feed}`;
  });
  const more = zones.length > ZONES_TOLD ? `; ${zones.length - ZONES_TOLD} more` : "";
  return `Zones by height of the tip: ${told.join("; ")}${more}.`;
}

/** Silence would read as a flat face. Without a tool or a depth nothing is known, which is told once. */
function unknownEntry({ unknown, shape }: HoleLoads): string {
  const why = unknown.engagement;
  if (why === undefined || why === unknown.tool || why === unknown.depthRatio || shape.endZ === null) return "";
  return `**Entry not known**: ${soft(`${why}.`)}`;
}

/** `a face inclined 30°, by the stock and the holes drilled before; ` */
function enteredInto({ form, source }: Engagement, system: UnitSystem): string {
  const what = form === null ? "metal on one part of the turn only" : formText(form, system);
  return `${what}, ${TOLD_BY[source]}; `;
}

const TOLD_BY: { readonly [S in Engagement["source"]]: string } = {
  flat: "nothing else being told",
  note: "told by a cut note",
  entry: "told by the setup",
  stock: "by the stock and the holes drilled before",
};

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
