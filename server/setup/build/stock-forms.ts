/** Friendly forms of the stock as boxes and cylinders. What is missing in a form was told by its schema. */
import type { Infer } from "../schema/node.ts";
import type { PLATES } from "../schema/stock-forms.ts";
import type { StockBox } from "../types.ts";

/** Each plate keeps the path of its own layer. */
export function platesOf({ x, y, top, layers }: Infer<typeof PLATES>, path: string): StockBox[] {
  if (x === undefined || y === undefined || top === undefined) return [];
  const plates: StockBox[] = [];
  let down = top;
  for (const [i, { plate, gap }] of (layers ?? []).entries()) {
    const from = down;
    down -= plate ?? gap ?? 0;
    if (plate !== undefined) plates.push({ kind: "box", x, y, z: [down, from], cut: [], path: `${path}.layers[${i}]` });
  }
  return plates;
}
