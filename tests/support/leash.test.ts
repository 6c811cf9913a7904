// What a test starts ends with the test's process, even where that was killed and could clean up nothing.
import { once } from "node:events";
import { describe, expect, it } from "vitest";
import { startLeashed } from "./leashed.ts";

const runs = (pid: number): boolean => {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
};

describe("a child on a leash", () => {
  it("ends when the process that started it is killed", async () => {
    const parent = startLeashed("tests/support/leash-children/parent.ts");
    const [line] = (await once(parent.stdout as NodeJS.ReadableStream, "data")) as [Buffer];
    const child = Number(String(line).trim());
    expect(runs(child)).toBe(true);
    parent.kill("SIGKILL");
    await expect.poll(() => runs(child), { timeout: 30_000 }).toBe(false);
  });
});
