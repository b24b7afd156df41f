/** The `swarfline` command. */
import { nodeIo } from "./node-io.ts";
import { run } from "./run.ts";

const io = nodeIo();

process.stdout.on("error", (error: NodeJS.ErrnoException) => {
  // A reader that has seen enough (`| head`) closes the pipe: that is no error of ours.
  if (error.code === "EPIPE") process.exit();
  process.stderr.write(`swarfline: the output cannot be written: ${error.message}.\n`);
  process.exit(3);
});
// Nobody is left to be told.
process.stderr.on("error", () => process.exit(3));

run(process.argv.slice(2), io)
  .then((code) => {
    io.flush();
    process.exitCode = code;
  })
  .catch((error: unknown) => {
    const what = error instanceof Error ? error.message : String(error);
    io.err(`swarfline: internal error: ${what}. Please report it with the program that caused it.\n`);
    process.exitCode = 3;
  });
