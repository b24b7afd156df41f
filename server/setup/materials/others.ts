/**
 * Stainless steels (M), cast irons (K), chilled iron (H), non-ferrous metals (N) and titanium (S). kc1.1 and mc as marked
 * in each row; hardness and cross designations are nearest equivalents from memory.
 */
import type { WorkMaterial } from "../types.ts";
import { kMemory, row, vMemory, vQuoted, vRead } from "./row.ts";

export const others: readonly WorkMaterial[] = [
  row(
    "M",
    ["X5CrNi18-10", "1.4301", "304", "S30400", "SUS304", "V2A"],
    "solution annealed",
    180,
    "austenitic-stainless",
    [vQuoted(2350, 0.21)],
  ),
  row(
    "M",
    ["X6CrNiMoTi17-12-2", "1.4571", "316Ti", "S31635", "SUS316Ti"],
    "solution annealed",
    190,
    "austenitic-stainless",
    [vMemory(2550, 0.18, 'weak: printed for "stainless, high-alloy"')],
  ),
  row(
    "K",
    ["EN-GJL-150", "0.6015", "GG 15", "GJL-150", "A48 class 20", "A48 class 25", "FC150"],
    "as cast",
    150,
    "cast-iron",
    [vMemory(950, 0.21)],
  ),
  row("K", ["EN-GJL-200", "0.6020", "GG 20", "GJL-200", "A48 class 30", "FC200"], "as cast", 180, "cast-iron", [
    vMemory(1020, 0.25),
  ]),
  row(
    "K",
    ["EN-GJL-250", "0.6025", "GG 25", "GG 26", "GJL-250", "A48 class 35", "A48 class 40", "FC250"],
    "as cast",
    200,
    "cast-iron",
    [vMemory(1160, 0.26, "an examination file that quotes Tabellenbuch Metall prints 1120")],
  ),
  row("K", ["EN-GJL-300", "0.6030", "GG 30", "GJL-300", "A48 class 45", "FC300"], "as cast", 208, "cast-iron", [
    vMemory(1470, 0.26),
    kMemory(899, 0.41, "tested at HB 206"),
  ]),
  row(
    "K",
    ["EN-GJS-600-3", "0.7060", "GGG 60", "GJS-600-3", "A536 80-55-06", "F33800", "FCD600"],
    "as cast",
    220,
    "cast-iron",
    [vMemory(1480, 0.17)],
  ),
  row("K", ["EN-GJMB", "GTS", "EN-GJMW", "GTW", "A47", "A220"], "malleable, below 220 HB", 200, "cast-iron", [
    vMemory(1200, 0.21),
  ]),
  row("H", ["chilled cast iron", "VDI 40"], "46 HRC", 432, null, [vMemory(2060, 0.19)]),
  row("N", ["EN AW-2017A", "3.1325", "AlCuMg1", "AlCu4MgSi", "2017", "A92017"], "aged", 100, "aluminium", [
    vQuoted(830, 0.23),
  ]),
  row("N", ["EN AW-5754", "3.3535", "AlMg3", "5754", "A95754"], "half hard", 55, "aluminium", [vMemory(780, 0.23)]),
  row("N", ["AC-AlSi12", "3.2581", "EN AC-44200", "G-AlSi12", "A413"], "as cast", 60, "aluminium", [
    vMemory(830, 0.23),
  ]),
  row("N", ["aluminium casting alloy", "cast aluminium", "VDI 23"], "as cast, 50 to 80 HB", 65, "aluminium", [
    vMemory(640, 0.25, "printed for aluminium casting alloys in general"),
  ]),
  row(
    "N",
    ["MgAl8Zn", "3.5812", "AZ81A", "M11810", "MgAl8Zn1"],
    "as cast",
    60,
    "magnesium",
    [vMemory(390, 0.19, "another reprint shows 240 and 0.34")],
    "magnesium",
  ),
  row(
    "N",
    ["CuZn40Pb2", "2.0402", "Ms 58", "C37700", "C36000", "CW617N", "brass"],
    "drawn, 80 to 120 HB",
    100,
    "leaded-brass",
    [vRead(780, 0.18)],
  ),
  row("N", ["CuSn7ZnPb", "2.1090", "Rg 7", "C93200", "gunmetal"], "cast", 65, null, [vMemory(640, 0.25)]),
  row(
    "S",
    ["TiAl6V4", "3.7165", "3.7164", "Ti-6Al-4V", "Grade 5", "Ti Gr 5", "R56400"],
    "annealed",
    330,
    "titanium",
    [vMemory(1370, 0.21, "turning value, from memory of Tabellenbuch Metall")],
    "titanium",
  ),
];
