/** A machine from what the setup says. */

import type { MACHINE } from "../schema/machines.ts";
import type { Infer } from "../schema/node.ts";
import type { CoolantSupply, EnvelopePoint, Machine, Spindle } from "../types.ts";
import { assumed, type Building, byDefault } from "./context.ts";
import { buildDialect, mCode, withCoolant } from "./dialect.ts";

type Written = Infer<typeof MACHINE>;

/** Motor to cutter by kind of drive. Common practice, no source. */
export const DRIVE_EFFICIENCY = { direct: 0.92, belt: 0.87, geared: 0.77 } as const;

export function buildMachine(name: string, written: Written, path: string, building: Building): Machine {
  const coolant = new Map<string, CoolantSupply>();
  for (const [code, supply] of written.coolant ?? []) {
    if (supply.kind !== undefined)
      coolant.set(mCode(code), { kind: supply.kind, pressure: supply.pressure ?? null, flow: supply.flow ?? null });
  }
  if (written.kind === undefined)
    byDefault(building, `${path}.kind`, assumed(building, `${path}.kind`, "default, mill"));
  return {
    name,
    kind: written.kind ?? "mill",
    dialect: withCoolant(buildDialect(written.dialect, `${path}.dialect`, building, written.kind), coolant),
    spindle: written.spindle === undefined ? null : buildSpindle(written.spindle, `${path}.spindle`, building),
    axis: {
      maxFeed: written.axis?.maxFeed ?? null,
      rapid: written.axis?.rapid ?? null,
      thrust: written.axis?.thrust ?? null,
    },
    coolant,
    toolChange: written.toolChange ?? null,
    rate: written.rate ?? null,
    path,
  };
}

function buildSpindle(written: NonNullable<Written["spindle"]>, path: string, building: Building): Spindle {
  const shortTime = written.shortTime;
  const drive = written.drive ?? null;
  const { unknown } = building.findings;
  const lost = unknown.has(`${path}.efficiency`) || (written.efficiency === undefined && unknown.has(`${path}.drive`));
  let efficiency = written.efficiency;
  if (efficiency === undefined) {
    efficiency = DRIVE_EFFICIENCY[drive ?? "belt"];
    const why = drive === null ? "no drive or efficiency declared, belt drive taken" : `drive ${drive}`;
    byDefault(building, `${path}.efficiency`, `default, common practice: ${why}, ${efficiency}`);
  }
  if (lost) building.findings.unknown.set(`${path}.continuous`, `${path}: its efficiency could not be read`);
  return {
    maxRpm: written.maxRpm ?? null,
    // What arrives at the cutter hangs on the efficiency: with that broken, no limit can be stated.
    continuous: lost ? [] : points(written.continuous),
    shortTime:
      lost || shortTime?.minutes === undefined || shortTime.points === undefined
        ? null
        : { minutes: shortTime.minutes, points: points(shortTime.points) },
    efficiency,
    drive,
  };
}

/** As written: what is not on the brochure's point stays null, so that a torque point is still known as one. */
function points(written: NonNullable<Written["spindle"]>["continuous"]): readonly EnvelopePoint[] {
  const list: EnvelopePoint[] = [];
  for (const point of written ?? []) {
    if (point.rpm !== undefined)
      list.push({ rpm: point.rpm, torque: point.torque ?? null, power: point.power ?? null });
  }
  return list;
}
