/** What one hole's loads are made from: worked out once, shared by the loads and their derivations. */
import type { EngagementCurve } from "../mechanics/engagement/engage.ts";
import type { Execution, HoleShape } from "../program/types.ts";
import type { ResolvedSetup, WorkMaterial } from "../setup/types.ts";
import type { CoolantClock } from "./coolant.ts";
import type { WorkedEngagement } from "./engagement.ts";
import type { Limits } from "./limits.ts";
import type { Reading } from "./observed.ts";
import type { KnownTool, Speeds } from "./speeds.ts";
import type { FullThrust } from "./thrust.ts";
import type { FullTorque } from "./torque.ts";
import type { Known } from "./types.ts";
import type { MatchedWindow } from "./window.ts";

export interface Setting {
  readonly execution: Execution;
  readonly setup: ResolvedSetup;
  readonly program: string | null;
  readonly clock: CoolantClock;
  /** Engagement curves by what they depend on: equal entries of equal drills share one. */
  readonly curves: Map<string, EngagementCurve>;
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
  readonly reading: Reading | null;
  /** Readings that were not used, with why. */
  readonly refused: readonly string[];
  readonly limits: Limits;
}
