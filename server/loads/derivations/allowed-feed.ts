/** Feed allowed in an interrupted entry. */
import type { Facts } from "../facts.ts";
import { COMMON_PRACTICE, setupSource } from "../provenance.ts";
import type { Derivation, EngagementSample } from "../types.ts";
import { derivation, input, toolField, toolInput } from "./inputs.ts";

export function deriveAllowedFeed(facts: Facts): Derivation | null {
  if (!facts.engagement.known || !facts.window.known) return null;
  const { engagement, allowed, ruling } = facts.engagement.value;
  if (allowed.feed === null || allowed.made === null || ruling === null) return null;
  const { share, nominal, floor } = allowed.made;
  const { setup } = facts.setting;
  return derivation({
    formula: "allowed-feed",
    title: "feed allowed while the cut is interrupted",
    expression: "f = max(fMin, share · f nominal)",
    inputs: [
      toolInput(facts, "fMin", floor, "feedPerRev"),
      input(
        "share",
        share,
        "share",
        ruling.path === null ? `${ruling.why}, ${COMMON_PRACTICE}` : setupSource(setup, ruling.path, ruling.why),
      ),
      input("f nominal", nominal, "feedPerRev", toolField(facts, facts.window.value.fField ?? "windows")),
    ],
    symbol: "f",
    value: allowed.feed,
    quantity: "feedPerRev",
    source: ruling.path === null ? `${COMMON_PRACTICE}, no source` : "the shop's own data",
    notes: [
      engagement.skin ? "cast or forged skin" : `class ${engagement.class}: ${measuresInWords(engagement.worst)}`,
      ...(engagement.advice === "" ? [] : [engagement.advice]),
    ],
  });
}

function measuresInWords(worst: EngagementSample): string {
  const percent = (share: number) => `${Math.round(share * 100)} %`;
  return (
    `${percent(worst.area)} of the area and ${percent(worst.rim)} of the rim in metal, ` +
    `largest gap ${percent(worst.voidArc)} of the turn, side force ${worst.side.toFixed(2)}`
  );
}
