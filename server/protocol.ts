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
