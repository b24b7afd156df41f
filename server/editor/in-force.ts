/** Tells the client by which setup, machine, dialect and material a program is checked, when that changes. */
import type { InForceParams } from "../protocol.ts";
import type { OpenDocument } from "./documents.ts";
import type { Review } from "./model.ts";
import { sameData } from "./same.ts";

export class InForce {
  readonly #tell: (params: InForceParams) => void;
  readonly #told = new WeakMap<OpenDocument, InForceParams>();

  constructor(tell: (params: InForceParams) => void) {
    this.#tell = tell;
  }

  reviewed(document: OpenDocument, review: Review): void {
    const { setup, execution } = review;
    const params: InForceParams = {
      uri: document.uri,
      setup: setup.file,
      dialect: setup.dialect.name,
      machine: setup.machine?.name ?? null,
      material: setup.material?.key ?? execution.noteMaterial?.name ?? null,
    };
    if (sameData(this.#told.get(document), params)) return;
    this.#told.set(document, params);
    this.#tell(params);
  }
}
