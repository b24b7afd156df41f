/** `explain --svg FILE`: the picture of the hole that enters hardest, as a file of its own. */
import type { HoleLoads } from "../loads/types.ts";
import { engagementSvg } from "../pictures/engagement.ts";
import { curveOfHole, hardestEntry, isInterrupted, planOfHole, SQUARE_AXES } from "../pictures/engagement-of-hole.ts";
import type { Hole } from "../program/types.ts";
import { lineName } from "../review/places.ts";
import type { Review } from "../review/types.ts";
import type { UnitSystem } from "../units/quantities.ts";
import { sayOne } from "../units/wording.ts";
import { FAMILY } from "./formats/family.ts";
import { bare } from "./formats/load-table.ts";
import { plural } from "./formats/terminal.ts";
import { type CliIo, UsageError } from "./io.ts";
import { reason } from "./load.ts";
import { absolute, folderOf, shown } from "./paths.ts";

/** As fine as a picture of some hundred points shows. */
const RINGS = 48;

/** Who asks for the picture asks for this file: what cannot be one is refused before anything is worked out. */
export function svgTarget(file: string, io: CliIo): string {
  const path = absolute(file, io);
  if (io.kind(path) === "folder")
    throw new UsageError(`--svg takes the name of a file; ${shown(path, io)} is a folder.`);
  if (!/[^/]\.svg$/i.test(path))
    throw new UsageError(`--svg takes a file name that ends in .svg; got ${file === "" ? '""' : file}.`);
  const folder = folderOf(path, io);
  if (io.kind(folder) !== "folder") {
    throw new UsageError(`${shown(path, io)} cannot be written: there is no folder ${shown(folder, io)}.`);
  }
  if (io.kind(path) === "file" && !isSvg(path, io)) {
    throw new UsageError(
      `${shown(path, io)} is there already and is no SVG: it is not overwritten. Give another name.`,
    );
  }
  return path;
}

const HEAD = 4096;

function isSvg(path: string, io: CliIo): boolean {
  try {
    const bytes = io.readFile(path);
    return (
      bytes.length === 0 ||
      /^\ufeff?\s*(<\?xml[^>]*>\s*)?(<!--[\s\S]*?-->\s*|<!DOCTYPE[^>]*>\s*)*<svg[\s/>]/i.test(
        new TextDecoder().decode(bytes.subarray(0, HEAD)),
      )
    );
  } catch (error) {
    throw new UsageError(`${shown(path, io)} is there already and cannot be read: ${reason(error)}.`);
  }
}

interface Case {
  readonly hole: Hole;
  readonly loads: HoleLoads;
}

/**
 * @param program as it is shown
 * @param what the holes as a person asked for them: `a.nc`, `a.nc:12`
 * @returns one sentence: what was written
 * @throws {UsageError} where nothing is interrupted, and where the file cannot be written
 */
export function writeSvg(
  path: string,
  program: string,
  what: string,
  holes: readonly Hole[],
  review: Review,
  io: CliIo,
): string {
  const cases = firstOfEach(holes, review);
  const found = hardestEntry(cases);
  const engagement = found?.loads.engagement ?? null;
  if (found === null || engagement === null) throw new UsageError(nothing(what, cases));
  const { hole, loads } = found;
  const system = review.execution.units ?? "mm";
  const line = lineName(review.execution.blocks, hole.block);
  const svg = engagementSvg({
    hole: placeOf(hole, system),
    tool: toolOf(loads, system),
    line: `${program.split("/").at(-1)} ${line}`,
    plan: planOfHole(loads, engagement, RINGS, system),
    curve: curveOfHole(loads, engagement, system),
  });
  try {
    io.writeFile(path, `${svg}\n`);
  } catch (error) {
    throw new UsageError(`${shown(path, io)} cannot be written: ${reason(error)}.`);
  }
  const others = cases.filter((one) => isInterrupted(one.loads.engagement)).length;
  const of = others > 1 ? `, the hardest of ${plural(others, "kind")} of interrupted holes` : "";
  return `Wrote ${shown(path, io)}: ${placeOf(hole, system)}, ${line}, class ${engagement.class}${of}.`;
}

function firstOfEach(holes: readonly Hole[], review: Review): Case[] {
  const first = new Map<number, Hole>();
  for (const hole of holes) if (!first.has(hole.shape.id)) first.set(hole.shape.id, hole);
  return [...first.values()].map((hole) => ({ hole, loads: review.loads(hole.shape) }));
}

function nothing(what: string, cases: readonly Case[]): string {
  if (cases.length === 0) return `--svg draws an interrupted cut; ${what} makes no hole.`;
  const { loads } = cases.find(({ loads }) => loads.engagement === null) ?? {};
  if (loads !== undefined) {
    const why = loads.unknown.engagement ?? "the entry cannot be worked out";
    return `--svg draws an interrupted cut; in ${what} none is known, and of some holes nothing is: ${why}.`;
  }
  const exit = cases.some(({ loads }) => loads.engagement?.zones.some(({ where }) => where === "exit") === true);
  const why = exit ? "the exit that a note tells has no height to draw" : "every hole enters whole";
  return `--svg draws an interrupted cut; in ${what} there is none: ${why}.`;
}

function placeOf(hole: Hole, system: UnitSystem): string {
  const names = SQUARE_AXES[hole.shape.axis];
  const at = (hole.written ?? hole.at).map(
    (value, i) => `${names[i]}${value === null ? "?" : bare(value, "length", system)}`,
  );
  return `Hole ${at.join(" ")}`;
}

function toolOf({ tool, shape }: HoleLoads, system: UnitSystem): string {
  if (tool === null) return `T${shape.tool ?? "?"}`;
  return `T${tool.T} ${FAMILY[tool.family]} ${sayOne(tool.DC, "length", system)}`;
}
