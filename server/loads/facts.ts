/** What one hole's loads are made from: worked out once, shared by the loads and their derivations. */
import type { EngagementCurve } from "../mechanics/engagement/engage.ts";
import type { Execution, HoleShape } from "../program/types.ts";
import type { ResolvedSetup, Tool, WorkMaterial } from "../setup/types.ts";
import type { Limits, SpindleAt } from "./limits.ts";
import type { Reading } from "./observed.ts";
import type { KnownTool, Speeds } from "./speeds.ts";
import type { FullThrust } from "./thrust.ts";
import type { FullTorque } from "./torque.ts";
import type { Known } from "./types.ts";
import type { MatchedWindow } from "./window.ts";
import type { WorkedEngagement } from "./worked.ts";

export interface Setting {
  readonly execution: Execution;
  readonly setup: ResolvedSetup;
  readonly program: string | null;
  /** Window of each tool for the material, and where it stands. */
  readonly windows: Map<Tool, ToolWindow>;
  /** What the spindle gives, by speed. */
  readonly spindle: Map<number, SpindleAt>;
  /** Engagement curves by what they depend on: equal entries of equal drills share one. */
  readonly curves: Map<string, EngagementCurve>;
}

export interface ToolWindow {
  readonly window: Known<MatchedWindow>;
  /** `swarfline.yaml line 12`; empty where there is none. */
  readonly origin: string;
}

export interface Facts {
  readonly shape: HoleShape;
  readonly setting: Setting;
  readonly tool: KnownTool;
  readonly material: WorkMaterial | null;
  readonly speeds: Speeds;
  readonly window: Known<MatchedWindow>;
  /** In full cut, from tables. */
  readonly torque: Known<FullTorque>;
  readonly thrust: Known<FullThrust>;
  readonly engagement: Known<WorkedEngagement>;
  /** Largest share of the area in metal over the depth: 1 unless the drill never cuts its full circle. */
  readonly meanShare: number;
  /** The same of the cutting edge: what thrust goes by. */
  readonly edgeShare: number;
  readonly reading: Reading | null;
  /** Readings that were not used, with why. */
  readonly refused: readonly string[];
  readonly limits: Limits;
}
