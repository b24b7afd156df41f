/** placeholder until the reader below is written */
import type { Blocks } from "../../grammar/blocks.ts";
import type { Tool } from "../setup/types.ts";
import type { Span } from "../text/place.ts";
export interface CommentTool { readonly tool: Tool; readonly span: Span }
export function commentTools(_b: Blocks, _c: readonly number[], _u: "mm"|"inch"|null): ReadonlyMap<number, CommentTool> { return new Map(); }
