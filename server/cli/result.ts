/** What `check` found in one program, in the form the output formats share. */
import type { ResolvedSetup } from "../setup/types.ts";
import type { CliIo } from "./io.ts";
import { shown } from "./paths.ts";
import type { Placed } from "./public.ts";

export interface CheckResult {
  /** As it is printed. */
  readonly program: string;
  /** Absolute path. */
  readonly path: string;
  readonly findings: readonly Placed[];
  /** In words; empty for a file that is no program. */
  readonly setup: string;
  /** Nothing of it was checked at the drill. */
  readonly withoutHoles: boolean;
}

/** The setup in force, in one line: `machine vmc · generic-mill · 42CrMo4 290 HB · swarfline.yaml`. */
export function saySetup(setup: ResolvedSetup, io: CliIo): string {
  const parts: string[] = [];
  parts.push(setup.machine === null ? "no machine" : `machine ${setup.machine.name}`);
  parts.push(`dialect ${setup.dialect.name}`);
  const material = setup.material?.key ?? setup.workpiece?.materialKey ?? null;
  if (material !== null) parts.push([material, setup.workpiece?.hardnessText ?? ""].join(" ").trim());
  parts.push(setup.file === null ? "no swarfline.yaml" : shown(setup.file, io));
  return parts.join(" · ");
}
