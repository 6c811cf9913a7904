// Whoever reads what the program writes may end first. A log nobody reads stops no service; data nobody takes ends the command.
import { FAILED } from "./output.ts";

export function surviveReaders(): void {
  process.stderr.on("error", () => undefined);
  process.stdout.on("error", (error: NodeJS.ErrnoException) => {
    if (error.code !== "EPIPE") throw error;
    process.exit(FAILED);
  });
}
