/**
 * Materials for which no published pair was found, and whole groups: averages that circulate in the trade, keyed to the
 * groups of VDI 3323. The standard defines the groups, not the forces. Estimate, common practice, no source.
 */
import type { WorkMaterial } from "../types.ts";
import { average, row } from "./row.ts";

const range = "range printed; its middle taken";

/** Common grades that only have their group's value. */
const grades: readonly WorkMaterial[] = [
  row("P", ["S355JR", "1.0045", "S355J2", "1.0577", "St 52-3", "A572"], "Rm 470 to 630 N/mm²", 159, "steel", [
    average("2", 1500, 0.22),
  ]),
  row("P", ["C18E", "1018", "G10180", "S18C"], "cold drawn", 130, "steel", [average("1", 1350, 0.21)]),
  row("P", ["A36", "K02600"], "Rm 400 to 550 N/mm²", 138, "steel", [average("1", 1350, 0.21)]),
  row("P", ["11SMnPb30", "1.0718", "9SMnPb28", "12L14", "G12144"], "cold drawn", 140, "resulfurised-steel", [
    average("1", 1350, 0.21),
  ]),
  row("P", ["20NiCrMo2-2", "1.6523", "8620", "G86200", "SNCM220"], "annealed", 180, "steel", [
    average("6", 1775, 0.24),
  ]),
  row("P", ["X153CrMoV12", "1.2379", "D2", "T30402", "SKD11"], "annealed", 230, "steel", [average("10", 2450, 0.23)]),
  row("P", ["X40CrMoV5-1", "1.2344", "H13", "T20813", "SKD61"], "annealed", 200, "steel", [average("10", 2450, 0.23)]),
  row("P", ["X20Cr13", "1.4021", "420", "S42000", "SUS420J1"], "annealed", 200, "steel", [average("12", 1875, 0.21)]),
  row("P", ["X5CrNiCuNb16-4", "1.4542", "17-4PH", "630", "S17400", "SUS630"], "aged, about 32 HRC", 300, "steel", [
    average("13", 1875, 0.21),
  ]),
  row("M", ["X8CrNiS18-9", "1.4305", "303", "S30300", "SUS303"], "solution annealed", 180, "austenitic-stainless", [
    average("14", 2150, 0.2),
  ]),
  row(
    "M",
    ["X2CrNi19-11", "1.4306", "1.4307", "304L", "S30403", "SUS304L"],
    "solution annealed",
    180,
    "austenitic-stainless",
    [average("14", 2150, 0.2)],
  ),
  row(
    "M",
    ["X2CrNiMo17-12-2", "1.4404", "316L", "S31603", "SUS316L", "V4A"],
    "solution annealed",
    180,
    "austenitic-stainless",
    [average("14", 2150, 0.2)],
  ),
  row("M", ["X5CrNiMo17-12-2", "1.4401", "316", "S31600", "SUS316"], "solution annealed", 180, "austenitic-stainless", [
    average("14", 2150, 0.2),
  ]),
  row("M", ["X2CrNiMoN22-5-3", "1.4462", "2205", "S32205", "S31803", "duplex"], "solution annealed", 240, null, [
    average("14", 2473, 0.2, "plus 15 % for duplex, the middle of 10 to 20 %"),
  ]),
  row(
    "K",
    ["EN-GJS-400-15", "0.7040", "GGG 40", "GJS-400-15", "A536 60-40-18", "F32800", "FCD400"],
    "as cast, ferritic",
    160,
    "cast-iron",
    [average("17", 1225, 0.25)],
  ),
  row(
    "K",
    ["EN-GJS-500-7", "0.7050", "GGG 50", "GJS-500-7", "A536 65-45-12", "F33100", "FCD500"],
    "as cast",
    190,
    "cast-iron",
    [average("17", 1225, 0.25)],
  ),
  row(
    "K",
    ["EN-GJS-700-2", "0.7070", "GGG 70", "GJS-700-2", "A536 100-70-03", "F34800", "FCD700"],
    "as cast, pearlitic",
    250,
    "cast-iron",
    [average("18", 1350, 0.28)],
  ),
  row("N", ["EN AW-6061", "3.3211", "AlMg1SiCu", "6061", "A96061"], "T6", 95, "aluminium", [
    average("22", 750, 0.25, range),
  ]),
  row("N", ["EN AW-6082", "3.2315", "AlSi1MgMn", "6082", "A96082"], "T6", 95, "aluminium", [
    average("22", 750, 0.25, range),
  ]),
  row("N", ["EN AW-7075", "3.4365", "AlZn5.5MgCu", "7075", "A97075"], "T6", 150, "aluminium", [
    average("22", 750, 0.25, range),
  ]),
  row("N", ["EN AW-2024", "3.1355", "AlCu4Mg1", "2024", "A92024"], "T4", 120, "aluminium", [
    average("22", 750, 0.25, range),
  ]),
  row("N", ["EN AC-42100", "3.2371", "AlSi7Mg", "A356", "A13560"], "T6", 85, "aluminium", [
    average("24", 750, 0.25, range),
  ]),
  row("N", ["Cu-ETP", "CW004A", "2.0065", "E-Cu", "C11000", "copper"], "half hard", 80, null, [
    average("28", 700, 0.27),
  ]),
  row("N", ["CuZn37", "2.0321", "Ms 63", "CW508L", "C27200"], "half hard", 100, "brass", [average("27", 700, 0.27)]),
  row("N", ["MgAl9Zn1", "3.5912", "AZ91", "AZ91D", "M11916"], "as cast", 65, "magnesium", [], "magnesium"),
  row("N", ["MgAl3Zn1", "3.5312", "AZ31", "AZ31B", "M11311"], "wrought", 55, "magnesium", [], "magnesium"),
  row("S", ["NiCr19Fe19Nb5Mo3", "2.4668", "alloy 718", "718", "N07718"], "aged", 380, "nickel-alloy", [
    average("34", 3300, 0.24, "no textbook value found"),
  ]),
  row("S", ["NiCr22Mo9Nb", "2.4856", "alloy 625", "625", "N06625"], "annealed", 220, "nickel-alloy", [
    average("33", 3300, 0.24, "no textbook value found"),
  ]),
  row(
    "S",
    ["Ti Grade 2", "3.7035", "R50400", "Ti 2"],
    "annealed",
    160,
    null,
    [average("36", 1430, 0.23, range)],
    "titanium",
  ),
];

/** Whole groups, for a part of which only the kind is known: `VDI 9`. */
const groups: readonly WorkMaterial[] = [
  row("P", ["VDI 1", "steel 0.15 C"], "non-alloy, annealed", 125, "steel", [average("1", 1350, 0.21)]),
  row("P", ["VDI 2", "steel 0.45 C"], "non-alloy, annealed", 190, "steel", [average("2", 1500, 0.22)]),
  row("P", ["VDI 3", "steel 0.45 C Q&T"], "non-alloy, quenched and tempered", 250, "steel", [average("3", 1675, 0.24)]),
  row("P", ["VDI 4", "steel 0.75 C"], "non-alloy, annealed", 270, "steel", [average("4", 1700, 0.24)]),
  row("P", ["VDI 5", "steel 0.75 C Q&T"], "non-alloy, quenched and tempered", 300, "steel", [average("5", 1900, 0.24)]),
  row("P", ["VDI 6", "low-alloy steel"], "annealed", 180, "steel", [average("6", 1775, 0.24)]),
  row("P", ["VDI 7", "low-alloy steel 275 HB"], "quenched and tempered", 275, "steel", [average("7", 1675, 0.24)]),
  row("P", ["VDI 8", "low-alloy steel 300 HB"], "quenched and tempered", 300, "steel", [average("8", 1725, 0.24)]),
  row("P", ["VDI 9", "low-alloy steel 350 HB"], "quenched and tempered", 350, "steel", [average("9", 1800, 0.24)]),
  row("P", ["VDI 10", "tool steel"], "annealed", 200, "steel", [average("10", 2450, 0.23)]),
  row("P", ["VDI 11", "tool steel 325 HB"], "hardened", 325, "steel", [average("11", 2500, 0.23)]),
  row("P", ["VDI 12", "ferritic stainless"], "ferritic or martensitic, annealed", 200, "steel", [
    average("12", 1875, 0.21),
  ]),
  row("P", ["VDI 13", "martensitic stainless"], "quenched and tempered", 240, "steel", [average("13", 1875, 0.21)]),
  row("M", ["VDI 14", "austenitic stainless", "stainless"], "solution annealed", 180, "austenitic-stainless", [
    average("14", 2150, 0.2),
  ]),
  row("K", ["VDI 15", "grey iron", "cast iron"], "ferritic to pearlitic", 180, "cast-iron", [average("15", 1150, 0.2)]),
  row("K", ["VDI 16", "grey iron 260 HB"], "pearlitic", 260, "cast-iron", [average("16", 1350, 0.28)]),
  row("K", ["VDI 17", "ductile iron", "nodular iron"], "ferritic", 160, "cast-iron", [average("17", 1225, 0.25)]),
  row("K", ["VDI 18", "ductile iron 250 HB"], "pearlitic", 250, "cast-iron", [average("18", 1350, 0.28)]),
  row("K", ["VDI 19", "malleable iron"], "ferritic", 130, "cast-iron", [average("19", 1225, 0.25)]),
  row("K", ["VDI 20", "malleable iron 230 HB"], "pearlitic", 230, "cast-iron", [average("20", 1420, 0.3)]),
  row("N", ["VDI 21", "VDI 22", "aluminium", "aluminum"], "wrought", null, "aluminium", [
    average("21 to 22", 750, 0.25, range),
  ]),
  row("N", ["VDI 24", "aluminium casting alloy up to 12 % Si"], "aluminium, cast, up to 12 % Si", null, "aluminium", [
    average("23 to 24", 750, 0.25, range),
  ]),
  row("N", ["VDI 25", "hypereutectic aluminium"], "aluminium, cast, over 12 % Si", 130, "aluminium", [
    average("25", 750, 0.25),
  ]),
  row("N", ["VDI 27", "VDI 26", "VDI 28"], "copper alloys, brass, copper", null, null, [
    average("26 to 28", 700, 0.27),
  ]),
  row("S", ["VDI 31", "iron-base heat-resistant alloy"], "annealed", 200, null, [average("31", 2600, 0.24)]),
  row("S", ["VDI 32", "iron-base heat-resistant alloy, aged"], "aged", 280, null, [average("32", 3100, 0.24)]),
  row("S", ["VDI 33", "nickel alloy"], "nickel- or cobalt-base, annealed", 250, "nickel-alloy", [
    average("33", 3300, 0.24),
  ]),
  row("S", ["VDI 34", "nickel alloy, aged"], "nickel- or cobalt-base, aged", 350, "nickel-alloy", [
    average("34", 3300, 0.24),
  ]),
  row("S", ["VDI 35", "nickel alloy, cast"], "nickel- or cobalt-base, cast", 320, "nickel-alloy", [
    average("35", 3300, 0.24),
  ]),
  row("S", ["VDI 36", "pure titanium"], "annealed", null, null, [average("36", 1430, 0.23, range)], "titanium"),
  row(
    "S",
    ["VDI 37", "titanium"],
    "alpha-beta alloy",
    null,
    "titanium",
    [average("37", 1678, 0.23, range)],
    "titanium",
  ),
  // The lists give a kc1.1 for hardened groups but no mc, and one without the other is no force.
  row("H", ["VDI 38", "hardened steel 55 HRC"], "hardened, 55 HRC", 560, null, []),
  row("H", ["VDI 39", "hardened steel 60 HRC"], "hardened, 60 HRC", 654, null, []),
  row("H", ["VDI 41", "hardened iron 55 HRC"], "hardened, 55 HRC", 560, null, []),
];

export const averages: readonly WorkMaterial[] = [...grades, ...groups];
