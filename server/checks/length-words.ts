import { say } from "../units/wording.ts";
import type { CheckContext } from "./types.ts";

/** A length in the program's own unit, with the other beside it. */
export const sayLength = (mm: number, context: CheckContext): string => say(mm, "length", context.system);
