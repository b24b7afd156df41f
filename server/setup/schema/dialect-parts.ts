/** What the keys of a dialect share. */
import { text } from "./node.ts";

export const letters = (description: string, example: string) =>
  text("plain", { description, examples: [example] }, (value, say) => {
    if (!/^[A-Za-z]*$/.test(value)) say("", `expected address letters without spaces, got "${value}"`, { fatal: true });
  });

export const mCode = { keyRole: "m-code", keyPattern: "^M\\d{1,3}$", keyTitle: "an M code such as M88" } as const;

export const gCode = {
  keyRole: "g-code",
  keyPattern: "^G?\\d{1,3}(\\.\\d)?$",
  keyTitle: "a G code such as G83",
} as const;
