/** Messages of our own between client and server, beside LSP's. Nothing of ours is imported here. */

/** Server → client: read a file the review needs (setup, tool table). Any scheme; null when it cannot be read. */
export const READ_FILE = "swarfline/readFile";
export interface ReadFileParams {
  readonly uri: string;
}
export interface ReadFileResult {
  readonly text: string | null;
}

/** Server → client: which setup file rules this program: the nearest `swarfline.yaml` upward, or null. */
export const FIND_SETUP = "swarfline/findSetup";
export interface FindSetupParams {
  readonly uri: string;
}
export interface FindSetupResult {
  readonly uri: string | null;
}

/** Client → server: a file that the server asked for changed in an editor, saved or not. */
export const FILE_CHANGED = "swarfline/fileChanged";
export interface FileChangedParams {
  readonly uri: string;
}

/**
 * Server → client, where `initializationOptions.inForce` is true: by what a program is checked. Said once per review that
 * changed it, so that nobody has to guess which machine or dialect was taken.
 */
export const IN_FORCE = "swarfline/inForce";
export interface InForceParams {
  readonly uri: string;
  /** Uri of the setup; null: none was found. */
  readonly setup: string | null;
  readonly dialect: string;
  readonly machine: string | null;
  readonly material: string | null;
}
