// `npm run torture -- --kills N [--cuts N] [--seed N]`: the figures of a run, as JSON; exit 1 when anything acknowledged is not as it was.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { canTrace, powerCuts } from "./power-cut.ts";
import { BUILT } from "./shop-process.ts";
import { Torture } from "./torture.ts";

const { values } = parseArgs({
  options: { kills: { type: "string", default: "50" }, cuts: { type: "string", default: "200" }, seed: { type: "string" } },
});
const kills = Number(values.kills);
const cuts = Number(values.cuts);
const seed = Number(values.seed ?? Date.now() % 2 ** 31);
if (![kills, cuts, seed].every((n) => Number.isInteger(n) && n >= 0) || kills > 5000 || cuts > 5000) {
  process.stderr.write("Expected whole numbers up to 5000 for --kills and --cuts, and a whole --seed, got others\n");
  process.exit(2);
}

/** Mulberry32: small, seeded, good enough to choose moments by. */
let state = seed;
const random = () => {
  state = (state + 0x6d2b79f5) | 0;
  let t = Math.imul(state ^ (state >>> 15), 1 | state);
  t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
  return ((t ^ (t >>> 14)) >>> 0) / 2 ** 32;
};

// Stopped by hand it ends the round it is in and prints what it has.
const stopping = new AbortController();
for (const signal of ["SIGINT", "SIGTERM"] as const) process.once(signal, () => stopping.abort());

const dir = await mkdtemp(join(tmpdir(), "thoubook-torture-"));
const from = performance.now();
const tell = (line: string) => process.stderr.write(`${line}\n`);
try {
  const report = await new Torture({ program: BUILT, dir, kills, random, tell, stop: stopping.signal }).run();
  const cut = canTrace() ? await powerCuts({ program: BUILT, dir, cuts, random }) : undefined;
  const seconds = Math.round((performance.now() - from) / 1000);
  const powerCut = cut ?? "not simulated and syncs not counted: strace is not here or may not trace";
  process.stdout.write(`${JSON.stringify({ seed, seconds, ...report, powerCut }, null, 2)}\n`);
  const kept = report.lost + report.duplicated + report.corrupted + report.backups.broken === 0 && report.verified;
  const safe = cut === undefined || cut.lost + cut.unsynced + cut.faults.length === 0;
  process.exitCode = kept && safe ? 0 : 1;
} finally {
  await rm(dir, { recursive: true, force: true });
}
