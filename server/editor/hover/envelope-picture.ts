/** The spindle's envelope with this hole's operating point, as a picture for a hover. */

import { envelopeSvg } from "../../pictures/envelope.ts";
import { dataUri } from "../../pictures/svg.ts";
import { say, sayOne } from "../../units/wording.ts";
import type { Review } from "../model.ts";
import { picture } from "./markdown.ts";
import type { Ruled } from "./target.ts";

/** Empty where the machine declares no spindle: an axis without a curve says nothing. */
export function envelopePicture(review: Review, { loads, shape }: Ruled): string {
  const spindle = review.setup.machine?.spindle ?? null;
  if (spindle === null || (spindle.continuous.length === 0 && spindle.shortTime === null)) return "";
  const title = shape.tool === null ? "this hole" : `T${shape.tool}`;
  const label =
    loads.power === null ? title : `${title}: ${say(loads.power.nominal, "power", review.execution.units ?? "mm")}`;
  const svg = envelopeSvg({ spindle, rpm: loads.n, power: loads.power, title: label });
  const at = loads.power === null ? "power unknown" : `${sayOne(loads.power.nominal, "power", "mm")} at the cutter`;
  const speed = loads.n === null ? "speed unknown" : sayOne(loads.n, "rotation", "mm");
  return picture(`Spindle envelope: ${title} at ${speed}, ${at}`, dataUri(svg));
}
