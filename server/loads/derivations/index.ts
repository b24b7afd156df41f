/** The arithmetic behind a value, as data: one derivation for hover, `explain`, sheet and docs. */
import type { Facts } from "../facts.ts";
import type { Derivation, HoleLoads } from "../types.ts";
import { deriveAllowedFeed } from "./allowed-feed.ts";
import { deriveLimits } from "./limits.ts";
import { derivePower } from "./power.ts";
import { deriveFeed, deriveFeedRate, derivePointLength, deriveRemoval, deriveRotation, deriveSpeed } from "./speeds.ts";
import { deriveThrust } from "./thrust.ts";
import { deriveTorque } from "./torque.ts";

export type DeriveWhat = Parameters<HoleLoads["derive"]>[0];

const DERIVE: { readonly [W in DeriveWhat]: (facts: Facts) => Derivation | null } = {
  vc: deriveSpeed,
  n: deriveRotation,
  f: deriveFeed,
  vf: deriveFeedRate,
  mrr: deriveRemoval,
  pointLength: derivePointLength,
  torque: deriveTorque,
  power: derivePower,
  thrust: deriveThrust,
  limits: deriveLimits,
  allowedFeed: deriveAllowedFeed,
};

/** null: the value is unknown; the reason stands in the loads' `unknown`. */
export function derivationOf(what: DeriveWhat, facts: Facts): Derivation | null {
  return DERIVE[what](facts);
}
