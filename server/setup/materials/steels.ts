/**
 * Steels, group P. kc1.1 and mc as marked in each row. Hardness and cross designations are nearest equivalents from
 * memory; where only a strength is named, Brinell is its middle / 3.45 (Callister, eq. 7.25).
 */
import type { WorkMaterial } from "../types.ts";
import { kMemory, row, vMemory, vQuoted, vRead } from "./row.ts";

export const steels: readonly WorkMaterial[] = [
  row("P", ["S235JR", "1.0038", "St 37-2", "A283 C", "K02401", "SS400"], "Rm 360 to 510 N/mm²", 126, "steel", [
    vQuoted(1780, 0.17),
  ]),
  row("P", ["S275JR", "1.0044", "St 44-2", "A529", "1020", "G10200"], "Rm 410 to 560 N/mm²", 141, "steel", [
    vRead(1780, 0.17),
  ]),
  row("P", ["E295", "1.0050", "St 50-2", "A572 Gr 50"], "Rm 470 to 610 N/mm²", 157, "steel", [
    vQuoted(1990, 0.26),
    kMemory(1499, 0.29, "tested at Rm 559 N/mm²"),
  ]),
  row("P", ["E335", "1.0060", "St 60-2", "A572 Gr 65"], "Rm 570 to 710 N/mm²", 186, "steel", [vRead(2110, 0.17)]),
  row("P", ["E360", "1.0070", "St 70-2"], "Rm 670 to 830 N/mm²", 217, "steel", [
    vMemory(2260, 0.3),
    kMemory(1595, 0.32, "tested at Rm 824 N/mm²"),
  ]),
  row("P", ["C15E", "1.1141", "C15", "Ck15", "1015", "G10150", "S15C"], "annealed", 125, "steel", [
    vMemory(1820, 0.22),
  ]),
  row("P", ["C35E", "1.1181", "C35", "Ck35", "1035", "G10350", "S35C"], "normalised", 170, "steel", [
    vMemory(1860, 0.2),
  ]),
  row("P", ["C45E", "1.1191", "C45", "1.0503", "Ck45", "1045", "G10450", "S45C"], "normalised", 195, "steel", [
    vQuoted(2220, 0.14),
    kMemory(1659, 0.21, "normalised, tested at Rm 657 N/mm²"),
  ]),
  row("P", ["C45E+QT", "1.1191+QT", "1045 Q&T"], "quenched and tempered, Rm 765 N/mm²", 222, "steel", [
    kMemory(1584, 0.26),
  ]),
  row("P", ["C60E", "1.1221", "C60", "Ck60", "1060", "G10600", "S60C"], "normalised", 225, "steel", [
    vMemory(2130, 0.18),
  ]),
  row(
    "P",
    ["11SMn30", "1.0715", "9SMn28", "1213", "1215", "G12150", "SUM22"],
    "cold drawn",
    140,
    "resulfurised-steel",
    [vMemory(1310, 0.18, "some editions print 1200")],
  ),
  row("P", ["35S20", "1.0726", "1140", "G11400"], "cold drawn", 180, "resulfurised-steel", [
    vMemory(1420, 0.17, "some editions print 1200"),
  ]),
  row("P", ["40Mn4", "1.1157", "1039", "G10390"], "quenched and tempered, Rm 755 N/mm²", 219, "steel", [
    kMemory(1691, 0.22),
  ]),
  row("P", ["37MnSi5", "1.5122"], "quenched and tempered, Rm 892 N/mm²", 259, "steel", [kMemory(1656, 0.21)]),
  row("P", ["16MnCr5", "1.7131", "5115", "G51150"], "annealed", 180, "steel", [vRead(2100, 0.26)]),
  row("P", ["20MnCr5", "1.7147", "5120", "G51200", "SMnC420"], "annealed", 190, "steel", [vMemory(2140, 0.25)]),
  row("P", ["18CrNi8", "1.5920", "3115"], "annealed, Rm about 630 N/mm²", 183, "steel", [
    vMemory(2260, 0.3),
    kMemory(1511, 0.2, "treated for ferrite and pearlite, tested at Rm 618 N/mm²"),
  ]),
  row("P", ["25CrMo4", "1.7218", "4130", "G41300", "SCM430"], "annealed", 200, "steel", [vMemory(2070, 0.25)]),
  row("P", ["34CrMo4", "1.7220", "4135", "4137", "G41350", "SCM435"], "annealed", 220, "steel", [vMemory(2240, 0.21)]),
  row("P", ["41Cr4", "1.7035", "5140", "G51400", "SCr440"], "quenched and tempered, Rm 961 N/mm²", 279, "steel", [
    kMemory(1596, 0.23),
  ]),
  row(
    "P",
    ["42CrMo4", "1.7225", "4140", "G41400", "SCM440", "4142"],
    "quenched and tempered, Rm 730 to 1100 N/mm²",
    265,
    "steel",
    [vRead(2500, 0.26)],
  ),
  row("P", ["34CrNiMo6", "1.6582", "4340", "G43400", "SNCM439"], "quenched and tempered, Rm 1010 N/mm²", 293, "steel", [
    kMemory(1686, 0.18),
  ]),
  row("P", ["30CrNiMo8", "1.6580", "4340 type"], "quenched and tempered, Rm 1000 N/mm² and more", 290, "steel", [
    vMemory(2600, 0.2),
  ]),
  row("P", ["51CrV4", "1.8159", "50CrV4", "6150", "G61500", "SUP10"], "annealed", 220, "steel", [vMemory(2220, 0.26)]),
  row("P", ["100Cr6", "1.3505", "52100", "G52986", "SUJ2"], "annealed", 200, "steel", [
    kMemory(1726, 0.28, "reprints of the other line also show 1410 and 0.39"),
  ]),
  row("P", ["55NiCrMoV6", "1.2713", "L6", "T61206"], "annealed, Rm about 940 N/mm²", 272, "steel", [
    vMemory(1740, 0.24),
  ]),
  row("P", ["55NiCrMoV6+QT", "1.2713+QT", "L6 Q&T"], "quenched and tempered", 352, "steel", [vMemory(1920, 0.24)]),
  row("P", ["X210CrW12", "1.2436", "D6"], "annealed", 230, "steel", [
    vMemory(1820, 0.26, "weak: printed for X210CrW12 and X210Cr12"),
  ]),
  row("P", ["X210Cr12", "1.2080", "D3", "T30403", "SKD1"], "annealed", 230, "steel", [
    vMemory(1820, 0.26, "weak: printed for X210CrW12 and X210Cr12"),
  ]),
  row("P", ["GE240", "1.0446", "GS-45", "A27 65-35"], "cast, Rm 450 N/mm²", 130, "steel", [vMemory(1600, 0.17)]),
  row("P", ["GE260", "1.0552", "GS-52", "A27 70-36"], "cast, Rm 520 N/mm²", 151, "steel", [vMemory(1780, 0.17)]),
];
