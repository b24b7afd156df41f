/** Writes server/setup/swarfline.schema.json anew: node tests/unit/setup/write-json-schema.ts */
import { writeFileSync } from "node:fs";
import { setupJsonSchema } from "../../../server/setup/json-schema.ts";

const target = new URL("../../../server/setup/swarfline.schema.json", import.meta.url);
writeFileSync(target, `${JSON.stringify(setupJsonSchema(), null, 2)}\n`);
