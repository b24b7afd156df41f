/**
 * A made-up drilling program of mixed block kinds, for measuring: cycles with positions, long-hand drilling, tool
 * changes, modal words, comments, and a share of assignments and expressions. The same count gives the same text.
 * Speeds and feeds suit the tools of setup.ts, as in a program that somebody runs: most of it is right, a section now and
 * then is not.
 */

/** Three tools go to the same places one after the other, then the next three to places of their own. */
const TOOLS_AT_A_PLACE = 3;
/** mm: farther apart than any tool is wide. */
const PITCH = 45;
const ROW = 15;

/** @param blocks number of lines wanted */
export function makeMixedProgram(blocks: number): string {
  const lines: string[] = [
    "%",
    "O1001 (BRACKET RUN, INVENTED)",
    "G21 G17 G40 G49 G80 G90",
    "#100=2. (CLEARANCE)",
    "#102=90.",
  ];
  for (let section = 0; lines.length < blocks - 3; section++) pushSection(lines, section);
  lines.length = Math.max(0, blocks - 3);
  lines.push("N9000 M5", "M30", "%");
  return `${lines.slice(0, blocks).join("\n")}\n`;
}

function pushSection(lines: string[], section: number): void {
  const tool = (section % 24) + 1;
  const diameter = 3 + tool;
  const speed = Math.round(22_000 / (Math.PI * diameter)) + (section % 7);
  // Every eighth section feeds too fast.
  const feed = speed * diameter * (section % 8 === 7 ? 0.03 : 0.012);
  const field = Math.floor(section / TOOLS_AT_A_PLACE) * PITCH * 10;
  const at = (hole: number) => {
    const x = (hole % ROW) * PITCH + (hole % 7) / 8;
    const y = field + Math.floor(hole / ROW) * PITCH + (hole % 5) / 16;
    return `X${x.toFixed(3)} Y${y.toFixed(3)}`;
  };
  lines.push(
    `N${section * 10 + 10} T${tool} M6 (${diameter} DRILL)`,
    `G54 G0 ${at(0)}`,
    `S${speed} M3`,
    `G43 H${tool} Z50. M8`,
  );
  const cycle = `${section % 3 === 0 ? "G83 Z-32.5 R2. Q6." : "G81 Z-18.4 R2."} F${feed.toFixed(1)}`;
  lines.push(`G99 ${cycle} ${at(0)}`);
  for (let hole = 1; hole <= 90; hole++) lines.push(at(hole));
  lines.push("G80", "(LONG HAND ROW)");
  for (let hole = 0; hole < 10; hole++) {
    lines.push(`G0 ${at(105 + hole)} Z2.`, `G1 Z-12.5 F${feed.toFixed(1)}`, "G0 Z2.");
  }
  lines.push(
    "#101=#100+[1.5*2]",
    `G1 Z-[#101+${section % 9}.5] F#102`,
    "IF[#101LT1.]GOTO9000",
    "G0Z50.M9",
    "G91G28Z0",
    "G90;SAFE",
    "",
  );
}
