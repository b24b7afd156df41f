/** Hover of T: the tool as the setup or a comment gives it, and what it does in this program. */
import { say, sayOne } from "../../units/wording.ts";
import type { Tool, UnitSystem } from "../model.ts";
import { bandText, printDerivations } from "./derivation.ts";
import { loadsTable, rulesLine, toolLine } from "./facts.ts";
import { paragraphs, plain, soft, table } from "./markdown.ts";
import { ruledBy, type Target, worstOf } from "./target.ts";

export function hoverTool(target: Target): string | null {
  const { review, system, value } = target;
  if (value === null) return null;
  const tool = review.execution.tool(value);
  const ruled = ruledBy(review, (shape) => shape.tool === value);
  const worst = worstOf(ruled);
  if (tool === null) {
    const where = review.setup.hasToolTable
      ? "the tool table does not list it"
      : "no tool table, and no comment names it";
    return paragraphs(`**T${value}**: nothing known of it, ${where}.`, rulesLine(target, ruled, worst));
  }
  return paragraphs(
    `**${toolLine(tool, value, system)}**`,
    dataTable(target, tool),
    windowTable(tool, system),
    rulesLine(target, ruled, worst),
    worst !== null && loadsTable(worst.loads, system),
    worst !== null && printDerivations([worst.loads.derive("torque")], system),
  );
}

function dataTable(target: Target, tool: Tool): string {
  const { review, system } = target;
  const rows: string[][] = [];
  const row = (symbol: string, meaning: string, value: string | null): void => {
    if (value !== null) rows.push([`${symbol} ${meaning}`.trim(), soft(value), soft(originOf(target, tool, symbol))]);
  };
  const length = (value: number | null): string | null => (value === null ? null : say(value, "length", system));
  row("DC", "diameter", length(tool.DC));
  row("SIG", "point angle", tool.SIG === null ? null : sayOne(tool.SIG, "angle", system));
  row("LU", "usable length", length(tool.LU));
  row("PL", "point length", length(tool.PL));
  row("NOF", "flutes", tool.NOF === null ? null : String(tool.NOF));
  row("ZEFP", "edges in the feed", tool.ZEFP === null ? null : String(tool.ZEFP));
  row("RPMX", "highest speed", tool.RPMX === null ? null : sayOne(tool.RPMX, "rotation", system));
  row("coolant", "", tool.coolant);
  row("minPressure", "", tool.minPressure === null ? null : say(tool.minPressure, "pressure", system));
  row("minFlow", "", tool.minFlow === null ? null : say(tool.minFlow, "flow", system));
  const comment = review.execution.toolComment(tool.T);
  if (tool.assumed && comment !== null) {
    const text = review.input.blocks.textOf(comment.block).slice(comment.start, comment.end);
    rows.push(["comment", plain(text), `line ${review.input.blocks.lineOf(comment.block) + 1}`]);
  }
  return table(["tool", "value", "from"], rows, "lll");
}

function originOf(target: Target, tool: Tool, field: string): string {
  const { origins } = target.review.setup;
  const origin = origins.get(`${tool.path}.${field}`) ?? origins.get(tool.path);
  return origin?.text ?? (tool.assumed ? "comment, assumed" : "");
}

function windowTable(tool: Tool, system: UnitSystem): string {
  const rows = tool.windows.map((window) => {
    const { vc, f } = window;
    const vcText = vc === null ? "" : bandText({ low: vc[0], nominal: vc[1], high: vc[2] }, "speed", system);
    const fText = f === null ? "" : bandText({ low: f[0], nominal: f[1], high: f[2] }, "feedPerRev", system);
    return [plain(window.material ?? window.group ?? "any"), soft(vcText), soft(fText)];
  });
  return table(["window", "vc", "f"], rows, "lll");
}
