import { URI } from "vscode-uri";

/**
 * One spelling per file. Clients percent-encode differently (`file:///c%3A/` and `file:///c:/` are one file), and the
 * setup joins relative paths by its own rules.
 */
export function uriKey(uri: string): string {
  const seen = KEYS.get(uri);
  if (seen !== undefined) return seen;
  let key = uri;
  try {
    key = URI.parse(uri).toString();
  } catch {
    // Not a uri at all: it is its own key, and nobody will find a file under it.
  }
  if (KEYS.size > 1000) KEYS.clear();
  KEYS.set(uri, key);
  return key;
}

const KEYS = new Map<string, string>();

/** Last part of the path, decoded: `swarfline.yaml`. */
export function fileName(uri: string): string {
  const path = uri.replace(/[?#].*$/s, "");
  const name = path.slice(path.lastIndexOf("/") + 1);
  try {
    return decodeURIComponent(name);
  } catch {
    return name;
  }
}

/** The setup files: `swarfline.yaml` and `*.swarfline.yaml`. */
export function isSetupFile(uri: string): boolean {
  const name = fileName(uri).toLowerCase();
  return name === "swarfline.yaml" || name.endsWith(".swarfline.yaml");
}
