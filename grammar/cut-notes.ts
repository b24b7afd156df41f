import type { CutNote } from "./entry.ts";
export function readCutNote(_c: string, _mm: number): CutNote | { readonly problem: string } | null { return null; }
