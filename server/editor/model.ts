/** The parts of a review that the editor prints, under one roof. */
import type { Review } from "../review/types.ts";

export type { CutNote, EntryForm } from "../../grammar/entry.ts";
export type { Finding } from "../checks/types.ts";
export type { Band, Derivation, Engagement, HoleLoads } from "../loads/types.ts";
export type { Execution, Hole, HoleShape, ModalState } from "../program/types.ts";
export type { Machine, Tool } from "../setup/types.ts";
export type { Quantity, UnitSystem } from "../units/quantities.ts";
export type { Review };
