// Kill -9 in the middle of writing, again and again on one data folder: every acknowledged event is there, word for word, and all verifies.
import { spawn } from "node:child_process";
import { join } from "node:path";
import { v7 } from "uuid";
import { expect, it } from "vitest";
import { openShopData } from "../../../server/data-dir.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { putAsideOrphans, tempDir } from "../helper.ts";

const RUNS = 8;
const WRITER = join(import.meta.dirname, "writer.ts");

/** Let the writer run until it has acknowledged something and a random moment more, then kill it. Gives what it acknowledged. */
function writeUntilKilled(dir: string, build: string): Promise<string[]> {
  return new Promise((resolve, reject) => {
    const child = spawn(process.execPath, ["--import", "tsx", WRITER, dir, build], { stdio: ["ignore", "pipe", "inherit"] });
    let text = "";
    child.stdout.on("data", (chunk) => {
      if (text === "") setTimeout(() => child.kill("SIGKILL"), Math.random() * 250);
      text += chunk;
    });
    child.on("error", reject);
    // What stands behind the last line break was cut off on its way out.
    child.on("close", () => resolve(text.split("\n").slice(0, -1)));
  });
}

it(`keeps every acknowledged event through ${RUNS} kills`, async () => {
  const dir = join(await tempDir(), "shop");
  const build = v7();
  const acknowledged: string[] = [];
  for (let run = 0; run < RUNS; run += 1) {
    acknowledged.push(...(await writeUntilKilled(dir, build)));
    // The killed process holds nothing any more. A clip that was stored before its entry is nobody's.
    const data = await openShopData(dir);
    await putAsideOrphans(data);
    const bodies = new Set<string>();
    for (let after = 0; ; ) {
      const rows = await data.store.rowsAfter(build, after, 1000);
      for (const row of rows) bodies.add(row.body);
      after = rows.at(-1)?.seq ?? after;
      if (rows.length < 1000) break;
    }
    expect(acknowledged.filter((body) => !bodies.has(body))).toEqual([]);
    await data.close();
    const report = await verifyData(dir);
    expect([report.faults, report.blobs.orphans]).toEqual([[], 0]);
  }
  expect(acknowledged.length).toBeGreaterThan(RUNS);
}, 180_000);
