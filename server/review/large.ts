/** Lines up to which a program is checked at every keystroke. The command line has no such limit. */
export const MAX_LIVE_LINES = 300_000;

/** What stands in the editor in place of findings; null where the program is small enough. */
export function tooLargeMessage(lines: number, name: string): string | null {
  if (lines <= MAX_LIVE_LINES) return null;
  return `This program has ${lines} lines; the editor checks programs of up to ${MAX_LIVE_LINES} lines as you type. Nothing in it is checked here: run "swarfline check ${name}" on the command line.`;
}
