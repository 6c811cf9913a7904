// What a shop keeps is for the account that runs it alone.
import { chmod, lstat, mkdir, readdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { expect, it, vi } from "vitest";
import { startCommand } from "../../support/leashed.ts";
import { atEnd, tempDir } from "../helper.ts";

vi.setConfig({ testTimeout: 120_000 });

/** Serve a folder with its doors open to the network until it says so; gives a way to stop it. */
async function serve(data: string): Promise<() => Promise<void>> {
  const child = startCommand(["serve", "--late-ear", "--lan", "--port", "0", "--data", data]);
  const gone = new Promise<void>((resolve) => child.on("close", () => resolve()));
  atEnd(async () => {
    child.kill("SIGKILL");
    await gone;
  });
  let said = "";
  child.stderr?.on("data", (chunk) => {
    said += chunk;
  });
  await expect.poll(() => said, { timeout: 100_000 }).toMatch(/the list of devices and customer links/);
  return async () => {
    child.kill("SIGTERM");
    await gone;
  };
}

/** Every file and folder whose mode lets others in. */
async function openToOthers(path: string): Promise<string[]> {
  const stats = await lstat(path);
  const own = (stats.mode & 0o077) === 0 ? [] : [`${path} ${(stats.mode & 0o777).toString(8)}`];
  if (!stats.isDirectory()) return own;
  const below = await Promise.all((await readdir(path)).map((name) => openToOthers(join(path, name))));
  return [...own, ...below.flat()];
}

it("makes files as 0600 and folders as 0700, and closes those that an earlier version left open", async () => {
  const data = join(await tempDir(), "data");
  let stop = await serve(data);
  expect(await openToOthers(data)).toEqual([]);
  await stop();
  const blob = join(data, "blobs", "00");
  await mkdir(blob, { recursive: true });
  await writeFile(join(blob, "old"), "old");
  for (const path of [data, join(data, "thoubook.db"), join(data, "blobs"), blob, join(blob, "old")]) await chmod(path, 0o755);
  stop = await serve(data);
  expect(await openToOthers(data)).toEqual([]);
  await stop();
});

it("leaves a folder that holds no shop as it is", async () => {
  const { closeToOthers } = await import("../../../server/cli/private.ts");
  const dir = await tempDir();
  await chmod(dir, 0o755);
  await closeToOthers(dir);
  expect(await openToOthers(dir)).toEqual([`${dir} 755`]);
});
