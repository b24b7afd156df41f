import { choice, hardness, list, map, number, quantity, record, text } from "./node.ts";
import { GROUPS } from "./tools.ts";

/** Kinds of work material the handbook's factor knows. */
export const HANDBOOK_KINDS = {
  "resulfurised-steel": "Free-cutting steel.",
  steel: "Carbon and alloy steel, by hardness.",
  "cast-iron": "Cast iron.",
  aluminium: "Most aluminium alloys.",
  magnesium: "Most magnesium alloys.",
  brass: "Most brasses.",
  "leaded-brass": "Leaded brass.",
  "austenitic-stainless": "Austenitic stainless steel (limited data).",
  titanium: "Ti-6Al-4V (limited data).",
  "nickel-alloy": "Nickel-base alloys (limited data).",
} as const;

/** `materials:`: materials of the shop's own, on top of the built-in table. */
export const MATERIALS = map(
  record(
    "a material",
    {
      group: choice(GROUPS, { description: "Material group by ISO 513." }),
      kc11: quantity("stress", {
        description: "Specific cutting force kc1.1 at 1 mm chip thickness and width, N/mm².",
        examples: ["1100"],
      }),
      mc: number(
        { description: "Slope mc of the specific cutting force over chip thickness.", examples: ["0.25"] },
        { min: 0, max: 1, under: true },
      ),
      hardness: hardness({ description: "Hardness or strength with its scale.", examples: ["200 HB"] }),
      source: text("plain", { description: "Where kc1.1 and mc come from.", examples: ['"own trial"'] }),
      designations: list(
        text("plain", { description: "A designation." }),
        { description: "Other names it is found by.", examples: ["[EN-GJL-200, A48]"] },
        { single: true },
      ),
      condition: text("plain", { description: "Heat treatment or state.", examples: ["normalised"] }),
      like: text("material", {
        description: "A built-in material whose values hold where this entry says nothing.",
        examples: ["42CrMo4"],
      }),
      handbook: choice(HANDBOOK_KINDS, {
        description: "Kind of material for the handbook's thrust and torque of HSS drills.",
      }),
      combustible: choice(
        { magnesium: "Chips burn; water feeds the fire.", titanium: "Fine chips burn." },
        { description: "Chips that can burn." },
      ),
    },
    { description: "A material of the shop's own." },
    [],
    (m, say) => {
      if (m.kc11 !== undefined && m.mc === undefined)
        say("kc11", "expected mc beside kc11: one without the other gives no force", {
          severity: "warning",
          absent: true,
          onKey: true,
        });
      if (m.mc !== undefined && m.kc11 === undefined)
        say("mc", "expected kc11 beside mc: one without the other gives no force", {
          severity: "warning",
          absent: true,
          onKey: true,
        });
      if (m.group === undefined && m.like === undefined)
        say("", "expected a group (P, M, K, N, S, H) or `like:`, got neither", { fatal: true, absent: true });
    },
  ),
  {
    description: "Materials of the shop's own, on top of the built-in table. A name that the table has is replaced.",
    examples: ['shop-cast: { group: K, kc11: 1100, mc: 0.25, hardness: 200 HB, source: "own trial" }'],
  },
  { keyTitle: "a material's name" },
);
