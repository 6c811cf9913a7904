import { defineConfig } from "vitest/config";

export default defineConfig({
  oxc: { jsx: { runtime: "automatic", importSource: "preact" } },
  test: {
    include: ["tests/**/*.test.ts", "tests/**/*.test.tsx"],
    // Native addons (SQLite, sharp) are not safe in worker threads.
    pool: "forks",
    maxWorkers: 2,
    globalSetup: ["tests/setup/build-program.ts"],
    setupFiles: ["tests/setup/fail-on-console.ts"],
    // Hearing and browsers are slow on a busy machine, and no test here asserts a speed.
    testTimeout: 180_000,
    hookTimeout: 180_000,
  },
});
