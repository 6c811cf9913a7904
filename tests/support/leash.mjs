// Loaded into a child process before its own code: it ends when the test's process ends, however that came about.
// The pipe on its stdin is the leash; the system closes it even where the test's process was killed.

import { isMainThread } from "node:worker_threads";

/** Time to end in order before it is ended. */
const GRACE_MS = 5000;

// Worker threads load this too, and their input closes early.
if (isMainThread) {
  process.stdin.on("close", () => {
    setTimeout(() => process.exit(1), GRACE_MS).unref();
    process.kill(process.pid, "SIGTERM");
  });
  process.stdin.resume();
  // Not a reason to stay once all else is done.
  process.stdin.unref?.();
}
