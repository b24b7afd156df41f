/** Families of tools in words. */
import type { Tool } from "../../setup/types.ts";

export const FAMILY: Readonly<Record<Tool["family"], string>> = {
  "twist-hss": "HSS twist drill",
  "solid-carbide": "solid carbide drill",
  indexable: "indexable insert drill",
  spade: "spade drill",
  gun: "gun drill",
  spot: "spot drill",
  ream: "reamer",
  tap: "tap",
  countersink: "countersink",
  bore: "boring tool",
};
