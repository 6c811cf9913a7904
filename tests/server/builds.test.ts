// Folded builds in memory: in the log's order whoever writes, findings kept up to date, looking never waits for working.
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { Builds } from "../../server/builds/builds.ts";
import { foldBuild } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import { Evaluator, evaluate } from "../../shared/rules/index.ts";
import { bootShop, makeEvent, openDemoBuild, openingEvent, standInParse } from "./helper.ts";

const taken = (build: string, cylinder: number, digits: string) => {
  const reading = standInParse(`bore ${cylinder} ${digits}`, { place: { depth: "top", axis: "thrust" } }).readings[0];
  if (reading === undefined) throw new Error("Expected a reading, got none");
  return makeEvent(build, "reading.taken", { reading, step: "bores" });
};

describe("folded builds", () => {
  it("have the findings of a fold from the start, however the log grew", async () => {
    const { deps, app } = await bootShop();
    const build = await openDemoBuild(app);
    for (let i = 0; i < 12; i += 1) {
      await deps.store.append([taken(build, (i % 4) + 1, `3.8${70 + i}0`)]);
      // Asked for after every event: the judge follows event by event.
      await deps.builds.read(build, ({ findings }) => findings());
    }
    const kept = await deps.builds.read(build, ({ findings }) => findings());
    const rows = await deps.store.rowsAfter(build, 0, 1000);
    expect(kept).toEqual(evaluate(foldBuild(rows.map((row) => JSON.parse(row.body) as BenchEvent))));
    expect(kept.some((finding) => finding.verdict !== "unknown")).toBe(true);
  });

  it("are looked at while somebody works on them, and see what was stored meanwhile", async () => {
    const { deps, app } = await bootShop();
    const build = await openDemoBuild(app);
    let finish = () => {};
    const working = deps.builds.use(build, () => new Promise<void>((resolve) => (finish = resolve)));
    await deps.store.append([taken(build, 1, "3.8750")]);
    expect(await deps.builds.read(build, (opened) => opened.build.readings.size)).toBe(1);
    finish();
    await working;
  });

  it("are worked on one after the other, each seeing what the one before stored", async () => {
    const { deps, app } = await bootShop();
    const build = await openDemoBuild(app);
    const seen = await Promise.all(
      Array.from({ length: 10 }, (_, i) =>
        deps.builds.use(build, async (opened) => {
          const before = opened.build.readings.size;
          await deps.store.append([taken(build, (i % 4) + 1, "3.8750")]);
          return before;
        }),
      ),
    );
    expect(seen).toEqual([0, 1, 2, 3, 4, 5, 6, 7, 8, 9]);
  });

  it("are let go beyond a bound and come back from the store", async () => {
    const { deps } = await bootShop();
    const builds = new Builds(deps.store, (build) => new Evaluator(build), 2);
    const ids = [v7(), v7(), v7(), v7()];
    for (const id of ids) await deps.store.append([openingEvent(id)]);
    const first = await builds.read(ids[0] ?? "", ({ build }) => build);
    for (const id of ids) await builds.read(id, () => undefined);
    const again = await builds.read(ids[0] ?? "", ({ build }) => build);
    expect(again).not.toBe(first);
    expect(again.id).toBe(ids[0]);
    await expect(builds.read(v7(), () => undefined)).rejects.toMatchObject({ code: "unknown_build" });
  });
});
