/** Power at the cutter: P = M · n / 9549. */
import { powerFromTorque } from "../mechanics/kienzle.ts";
import { finiteBand } from "./known.ts";
import type { Band, Known } from "./types.ts";

export function powerOf(torque: Known<Band>, n: Known<number>): Known<Band> {
  if (!torque.known) return torque;
  if (!n.known) return n;
  const { low, nominal, high } = torque.value;
  return finiteBand(
    {
      low: powerFromTorque(low, n.value),
      nominal: powerFromTorque(nominal, n.value),
      high: powerFromTorque(high, n.value),
    },
    "the power",
  );
}
