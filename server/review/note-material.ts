/** A material told by a note in the program goes before that of the setup: it travels with the program. */
import type { Finding } from "../checks/types.ts";
import { lineName } from "../program/library.ts";
import type { Execution } from "../program/types.ts";
import { materialByName } from "../setup/build/material.ts";
import { builtInOrigin } from "../setup/load.ts";
import type { Origin, ResolvedSetup, WorkMaterial, Workpiece } from "../setup/types.ts";

export interface NotedSetup {
  readonly setup: ResolvedSetup;
  /** That the note's material is not known. */
  readonly findings: readonly Finding[];
}

export function withNoteMaterial(execution: Execution, setup: ResolvedSetup): NotedSetup {
  const note = execution.noteMaterial;
  if (note === null) return { setup, findings: [] };
  const found = materialByName(note.name, note.hardness, setup);
  if (typeof found !== "string") {
    // A note that names the setup's own material again, without a hardness, says nothing against the one measured.
    if (note.hardness === null && found.material.key === setup.material?.key) return { setup, findings: [] };
    const text = `cut note, ${lineName(execution.blocks, note.span.block)}`;
    return { setup: replaced(setup, found.material, note.hardness, text), findings: [] };
  }
  const kept = setup.material === null ? "no material is used" : `${setup.material.key} of the setup is used`;
  return {
    setup,
    findings: [
      {
        check: "cut-note",
        severity: "warning",
        place: { in: "program", span: note.span },
        message: `The material of this note is not known: ${found}. Until then ${kept}.`,
        count: 1,
        related: [],
        data: null,
        operation: -1,
      },
    ],
  };
}

/** Material and hardness belong together: the workpiece's hardness is not that of another material. */
function replaced(setup: ResolvedSetup, material: WorkMaterial, hardness: string | null, text: string): ResolvedSetup {
  const measured = hardness === null ? null : material.hardnessHB;
  const workpiece: Workpiece = {
    ...(setup.workpiece ?? NO_WORKPIECE),
    materialKey: material.key,
    hardnessHB: measured,
    hardnessText: hardness,
  };
  const origins = new Map(setup.origins);
  const origin: Origin = { kind: "comment", file: "", line: -1, column: -1, text };
  origins.set(`${workpiece.path}.material`, origin);
  origins.set(`${workpiece.path}.hardness`, origin);
  if (measured !== null) origins.set(`${material.path}.hardnessHB`, origin);
  if (!origins.has(material.path)) origins.set(material.path, builtInOrigin);
  return { ...setup, material, workpiece, origins };
}

const NO_WORKPIECE: Workpiece = {
  name: "",
  materialKey: null,
  hardnessHB: null,
  hardnessText: null,
  workOffsets: new Map(),
  stock: null,
  entries: [],
  path: "workpiece",
};
