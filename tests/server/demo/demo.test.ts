// The demo build, really made: every clip heard, every picture read, and no figure in the book that nobody said.
import { mkdtemp, rm } from "node:fs/promises";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pino } from "pino";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { DEMO_PHOTOS } from "../../../demo-data/photos.ts";
import { SCENARIO } from "../../../demo-data/scenario.ts";
import { parse } from "../../../extractors/speech/index.ts";
import { demoClock } from "../../../server/demo/clock.ts";
import { sayDemo } from "../../../server/demo/say.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { type OpenShop, openShop } from "../../../server/open-shop.ts";
import { openSenses } from "../../../server/senses.ts";
import type { DemoState } from "../../../shared/api/demo.ts";
import { placeKey } from "../../../shared/places/places.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

/** Making the demo hears about five minutes of speech; a busy machine takes that long over it too. */
const PATIENCE = 900_000;

let dir: string;
let shop: OpenShop;
let state: DemoState;
const progress: number[] = [];

beforeAll(async () => {
  dir = await mkdtemp(join(tmpdir(), "thoubook-demo-"));
  shop = await openShop({ dataDir: dir, logger: pino({ level: "silent" }), senses: openSenses() });
  state = await shop.demo.start(({ done }) => progress.push(done));
}, PATIENCE);

afterAll(async () => {
  await shop.close();
  await rm(dir, { recursive: true, force: true });
});

describe("the demo build", () => {
  it("is made of every clip and every picture", () => {
    expect(state).toMatchObject({ state: "there", summary: { clips: SCENARIO.length, photos: DEMO_PHOTOS.length } });
    expect(SCENARIO.length).toBeGreaterThanOrEqual(40);
    expect(progress).toEqual(progress.map((_, index) => index + 1));
  });

  it("finds faults, and says so in plain lines", () => {
    if (state.state !== "there" || state.summary === undefined) throw new Error("Expected a made demo");
    expect(state.summary.findings.fail).toBeGreaterThan(10);
    expect(sayDemo(state)).toMatch(/105 clips heard .*\nFindings: \d+ failed/);
  });

  it("holds no figure that nobody said: what is not sure waits", async () => {
    if (state.state !== "there") throw new Error("Expected a made demo");
    const { wrong, right } = await shop.deps.builds.read(state.build, ({ build }) => {
      const clips = [...build.utterances.values()].filter((utterance) => utterance.by === "voice");
      const wrong: string[] = [];
      let right = 0;
      for (const [index, { id, text }] of clips.entries()) {
        const said = SCENARIO[index]?.say ?? "";
        const meant = parse(said, {}, DEMO_SPEC).readings.map(
          (one) => `${one.quantity}|${placeKey(one.place)}|${one.value}${one.unit}`,
        );
        for (const logged of build.readings.values()) {
          if (logged.utterance !== id || logged.revisions.length > 0 || logged.reading.do !== "accept") continue;
          const { quantity, place, value, unit } = logged.reading;
          if (meant.includes(`${quantity}|${placeKey(place)}|${value}${unit}`)) right += 1;
          else wrong.push(`${said} -> ${text}: ${quantity} ${placeKey(place)} ${value} ${unit}`);
        }
      }
      return { wrong, right };
    });
    expect(wrong).toEqual([]);
    expect(right).toBeGreaterThan(70);
  });

  it("has gauges by which the top ring's gap at cylinder 2, twelve thou, is good", async () => {
    if (state.state !== "there") throw new Error("Expected a made demo");
    const found = await shop.deps.builds.read(state.build, ({ findings }) =>
      findings().filter(({ rule, place }) => rule === "ring_end_gap" && place.cylinder === 2 && place.ring === "top"),
    );
    expect(found.map(({ value, verdict }) => [value, verdict])).toEqual([[0.012, "pass"]]);
  });

  it("is made once: asked for again, it is there", async () => {
    expect(await shop.demo.start()).toEqual({ state: "there", build: state.state === "there" ? state.build : "" });
    expect(await shop.deps.store.heads()).toHaveLength(1);
  });

  it("leaves a chain and blobs that verify", async () => {
    const report = await verifyData(dir);
    expect(report.faults).toEqual([]);
    expect(report.ok).toBe(true);
  });
});

describe("the demo's clock", () => {
  it("keeps its offset, moves as the book says, and never gives one moment twice within a line", () => {
    const clock = demoClock("2026-03-02T08:10:00+02:00");
    clock.pass(5);
    const [a, b] = [clock.now(), clock.now()];
    expect(a).toBe("2026-03-02T08:15:00.100+02:00");
    expect(b).toBe("2026-03-02T08:15:00.200+02:00");
    expect(Date.parse(a)).toBe(Date.UTC(2026, 2, 2, 6, 15, 0, 100));
  });
});
