// Whoever reads the log, or what a command prints, may end first.
import { once } from "node:events";
import { join } from "node:path";
import { expect, it } from "vitest";
import { startCommand } from "../../support/leashed.ts";
import { bootShop, openDemoBuild, tempDir } from "../helper.ts";

const TEST_MS = 300_000;

it("the service goes on when the reader of its log ends, and still stops in order", { timeout: TEST_MS }, async () => {
  const dir = join(await tempDir(), "shop");
  const child = startCommand(["serve", "--port", "0", "--data", dir, "--log", "info", "--late-ear"]);
  const ended = once(child, "exit");
  let text = "";
  const url = await new Promise<string>((resolve) => {
    child.stderr?.on("data", (chunk) => {
      text += chunk;
      const found = /open at (http:\/\/127\.0\.0\.1:\d+)\//.exec(text)?.[1];
      if (found !== undefined) resolve(found);
    });
  });
  child.stderr?.destroy();
  child.stdout?.destroy();
  for (let i = 0; i < 5; i += 1) expect((await fetch(`${url}/api/health`)).status).toBe(200);
  child.kill("SIGTERM");
  expect(await ended).toEqual([0, null]);
});

it("a command whose output nobody takes ends without a word", { timeout: TEST_MS }, async () => {
  const shop = await bootShop();
  const build = await openDemoBuild(shop.app);
  const child = startCommand(["export", build, "--data", shop.data.dir]);
  let said = "";
  child.stderr?.on("data", (chunk) => {
    said += chunk;
  });
  child.stdout?.destroy();
  const [code] = await once(child, "close");
  expect([code, said]).toEqual([1, ""]);
});
