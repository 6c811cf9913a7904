import { defineConfig } from "vitest/config";

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    // Native addons (SQLite, sharp) are not safe in worker threads.
    pool: "forks",
    maxWorkers: 2,
    setupFiles: ["tests/setup/fail-on-console.ts"],
    testTimeout: 30_000,
    hookTimeout: 60_000,
  },
});
