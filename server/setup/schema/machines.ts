import { DIALECT } from "./dialect.ts";
import { choice, either, type Infer, list, map, number, quantity, record, type Say, text } from "./node.ts";

const from0 = { min: 0 } as const;
const share = { min: 0, over: true, max: 1 } as const;

const point = record(
  "an envelope point",
  {
    rpm: quantity("rotation", { description: "Spindle speed of this point, 1/min.", examples: ["1500"] }, from0),
    torque: quantity("torque", {
      description: "Motor torque at this speed as the brochure prints it. Power there is torque × rpm.",
      examples: ["95", "70 ft·lb"],
    }),
    power: quantity("power", {
      description: "Motor power at this speed as the brochure prints it.",
      examples: ["15", "20 hp"],
    }),
  },
  { description: "One point of the spindle envelope: a speed and either the torque or the power there." },
  ["rpm"],
  (p, say) => {
    if (p.torque !== undefined && p.power !== undefined) {
      say("", "expected torque or power, got both: write the one the brochure prints", { fatal: true });
    }
  },
);

function checkEnvelope(points: readonly Infer<typeof point>[], say: Say): void {
  points.forEach((p, i) => {
    if (p.torque === undefined && p.power === undefined)
      say(`[${i}]`, "expected a torque or a power at this speed, got neither", { fatal: true, absent: true });
    const before = points[i - 1];
    if (before?.rpm !== undefined && p.rpm !== undefined && p.rpm <= before.rpm) {
      say(`[${i}].rpm`, `expected speeds that rise from point to point, got ${p.rpm} after ${before.rpm} 1/min`, {
        fatal: true,
      });
    }
  });
  if (points[0]?.rpm === 0 && points[0].power !== undefined) {
    say("[0].power", "expected a torque at 0 1/min, got a power: a motor gives no power at standstill", {
      severity: "warning",
      onKey: true,
    });
  }
  if (points.length === 0) say("", "expected at least one point, got an empty list", { fatal: true });
}

const envelope = (description: string) =>
  list(
    point,
    {
      description:
        `${description} Points as a brochure prints them for the motor, speeds rising; the cutter gets efficiency times ` +
        "that. Between points power runs straight over rpm (so constant torque stays constant torque), beyond the last it holds; " +
        "torque is power over speed, never above the first torque point.",
      examples: ["[{ rpm: 0, torque: 95 }, { rpm: 1500, torque: 95 }, { rpm: 6000, power: 15 }]"],
    },
    { whole: true },
    checkEnvelope,
  );

const spindle = record(
  "a spindle",
  {
    maxRpm: quantity("rotation", { description: "Highest spindle speed of the machine, 1/min.", examples: ["10000"] }),
    continuous: envelope("What the motor gives without a time limit."),
    shortTime: record(
      "a short-time envelope",
      {
        minutes: quantity("minutes", { description: "How long the motor may give this, minutes.", examples: ["30"] }),
        points: envelope("What the motor gives for the minutes named."),
      },
      { description: "The motor's short-time (30 minute or other) envelope." },
      ["minutes", "points"],
    ),
    drive: choice(
      {
        direct: "Built-in or directly coupled motor: efficiency 0.92 (common practice).",
        belt: "Belt between motor and spindle: efficiency 0.87 (common practice).",
        geared: "Gear head: efficiency 0.77 (common practice).",
      },
      {
        description:
          "How the motor drives the spindle. Gives the efficiency by common practice when `efficiency` is not written.",
      },
    ),
    efficiency: quantity(
      "share",
      {
        description: "Share of the motor's power that arrives at the cutter, 0 to 1 or in %.",
        examples: ["0.87", "87 %"],
        fallback: "from `drive`; belt, 0.87, where neither is written (common practice)",
      },
      share,
    ),
  },
  { description: "What the spindle can give." },
);

const axis = record(
  "the axis limits",
  {
    maxFeed: quantity("feedRate", {
      description: "Highest programmable feed rate.",
      examples: ["12000", "470 in/min"],
    }),
    rapid: quantity("feedRate", { description: "Rapid traverse, for times.", examples: ["30000", "30 m/min"] }),
    thrust: quantity("force", {
      description:
        "Force the drilling axis can hold continuously. Big twist drills meet this limit before the power limit.",
      examples: ["8 kN", "1800 lbf"],
    }),
  },
  { description: "Limits of the axis that feeds the drill." },
);

const supply = record(
  "a coolant supply",
  {
    kind: choice(
      {
        flood: "From nozzles, over the work.",
        mist: "Oil or water in air.",
        through: "Through spindle and tool to the edge.",
        air: "Compressed air.",
      },
      { description: "How this code brings coolant." },
    ),
    pressure: quantity(
      "pressure",
      { description: "Pressure of the pump at the flow named.", examples: ["20", "300 psi"] },
      from0,
    ),
    flow: quantity(
      "flow",
      {
        description: "Flow at that pressure. On big drills flow counts more than pressure.",
        examples: ["20", "5 gal/min"],
      },
      from0,
    ),
  },
  { description: "What an M code switches on at this machine." },
  ["kind"],
);

/** One machine. */
export const MACHINE = record(
  "a machine",
  {
    kind: choice(
      { mill: "The tool turns.", turn: "The work turns, or the tool on a driven station." },
      { description: "Kind of machine.", fallback: "mill" },
    ),
    dialect: either(
      text("dialect", {
        description: "How the control reads programs: a ready dialect.",
        examples: ["generic-mill", "generic-turn", "nist"],
        fallback: "generic-mill, generic-turn for `kind: turn`",
      }),
      DIALECT,
      {
        description:
          "How the control reads programs: the name of a ready dialect, or a map that inherits one and changes keys.",
        examples: ["generic-mill", "{ inherit: generic-mill, dwellP: s }"],
        fallback: "generic-mill, generic-turn for `kind: turn`",
      },
    ),
    spindle,
    axis,
    coolant: map(
      supply,
      {
        description: "The machine's coolant codes: M code to what it brings.",
        examples: ["M88: { kind: through, pressure: 20, flow: 20 }"],
      },
      { keyRole: "m-code", keyPattern: "^M\\d{1,3}$", keyTitle: "an M code such as M88" },
    ),
    toolChange: quantity("time", { description: "Chip to chip tool change time.", examples: ["4 s"] }, from0),
    rate: number(
      { description: "Cost of the machine per hour, in the shop's currency.", examples: ["95"] },
      { min: 0 },
    ),
  },
  { description: "A machine: its control, spindle, axis and coolant." },
);

/** `machines:`, by name. */
export const MACHINES = map(
  MACHINE,
  { description: "The machines of the shop, by names of your own." },
  { keyTitle: "a machine's name" },
);
