/** The `swarfline` command. */
import { nodeIo } from "./node-io.ts";
import { run } from "./run.ts";

// A reader that has seen enough (`| head`) closes the pipe: that is no error of ours.
for (const stream of [process.stdout, process.stderr]) {
  stream.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit();
  });
}

const io = nodeIo();
run(process.argv.slice(2), io).then(
  (code) => {
    io.flush();
    process.exitCode = code;
  },
  (error: unknown) => {
    const what = error instanceof Error ? error.message : String(error);
    io.err(`swarfline: internal error: ${what}. Please report it with the program that caused it.\n`);
    process.exitCode = 3;
  },
);
