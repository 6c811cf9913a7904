// What the outbox does with parcels that cannot go, with another shop at the address, and with a shop that has lost what it had
// confirmed: nothing stalls, nothing is dropped, nothing goes before what it rests on.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import type { BenchEvent } from "../../../shared/events/events.ts";
import { asFile, readCarried } from "../../../web/store/carry-file.ts";
import { ShopFailure } from "../../../web/store/failure.ts";
import { MemoryKeep } from "../../../web/store/memory-keep.ts";
import { Outbox, type OutboxState } from "../../../web/store/outbox.ts";
import { type PhotoParcel, parcelOf } from "../../../web/store/parcel.ts";
import { sha256Hex } from "../../../web/store/sha256.ts";
import { opened, reading, testStamp } from "../../support/events.ts";
import { ModelShop } from "./model-shop.ts";

const stamp = testStamp();
const said = (text: string) => stamp.make("utterance.heard", { text, by: "typed" });
const taken = () => stamp.make("reading.taken", { reading: reading("ring_end_gap", { cylinder: 1, ring: "top" }, "0.012") });

function phone(shop = new ModelShop()) {
  const keep = new MemoryKeep();
  let state: OutboxState = { count: 0, refused: [] };
  const outbox = new Outbox(keep, shop, (now) => {
    state = now;
  });
  const log = async (events: readonly BenchEvent[]) => {
    const kept = await outbox.add(events.map(parcelOf));
    return kept.map(({ id }) => id);
  };
  return { keep, shop, outbox, log, state: () => state };
}

const photoParcel = (): PhotoParcel => ({
  kind: "photo",
  id: crypto.randomUUID(),
  build: stamp.build,
  at: stamp.now(),
  sha256: "ab".repeat(32),
  type: "image/jpeg",
  fields: {},
});

describe("a parcel that the shop fails at", () => {
  it("is set aside and told, and all behind it go on in order", async () => {
    const { shop, outbox, log, state } = phone();
    const ids = await log(Array.from({ length: 120 }, (_, n) => said(`line ${n}`)));
    const bad = ids[37] ?? "";
    shop.failsAt.add(bad);
    expect(await outbox.drain()).toBe(false);
    expect(shop.log).toEqual(ids.filter((id) => id !== bad));
    expect(state().count).toBe(0);
    expect(state().refused.map(({ id, refused }) => [id, refused?.kind])).toEqual([[bad, "aside"]]);
    shop.failsAt.clear();
    expect(await outbox.sendAgain([bad])).toBe(true);
    expect(shop.log.at(-1)).toBe(bad);
    expect(state().refused).toEqual([]);
  });

  it("holds up nothing though several lie in front, a picture among them", async () => {
    const { shop, outbox, log, state } = phone();
    const picture = photoParcel();
    await outbox.add([picture], { [picture.sha256]: new Uint8Array([1]) });
    const bad = await log(["one", "two", "three", "four"].map(said));
    const good = await log(["five", "six"].map(said));
    for (const id of [picture.id, ...bad]) shop.failsAt.add(id);
    // A shop that fails at three in a row may be ill itself: the run ends, and the next begins behind them.
    for (let runs = 0; runs < 3; runs += 1) await outbox.drain();
    expect(shop.log).toEqual(good);
    expect(state().refused).toHaveLength(5);
  });

  it("is given a second try before others pass it", async () => {
    const { shop, outbox, log } = phone();
    const ids = await log(["one", "two"].map(said));
    const post = shop.postEvents.bind(shop);
    let faults = 2;
    shop.postEvents = async (build, events) => {
      if (faults > 0) {
        faults -= 1;
        throw new ShopFailure("internal", "a passing fault", 500);
      }
      return post(build, events);
    };
    expect(await outbox.drain()).toBe(true);
    expect(shop.log).toEqual(ids);
  });

  it("keeps back what corrects it: a correction that came first would correct nothing", async () => {
    const { shop, outbox, log, state } = phone();
    const first = taken();
    const fixed = { target: first.id, reading: reading("ring_end_gap", { cylinder: 1, ring: "top" }, "0.013") };
    const [bad = "", correction = "", other = ""] = await log([first, stamp.make("reading.corrected", fixed), taken()]);
    shop.failsAt.add(bad);
    await outbox.drain();
    expect(shop.log).toEqual([other]);
    expect(state().count).toBe(1);
    shop.failsAt.clear();
    await outbox.sendAgain([bad]);
    expect(shop.log).toEqual([other, bad, correction]);
  });
});

describe("another shop at the address", () => {
  it("gets nothing, and its refusals count for nothing", async () => {
    const { shop, outbox, log, keep, state } = phone();
    await log([said("first")]);
    await outbox.drain();
    const ids = await log([said("for the first shop")]);
    shop.shop = "two";
    shop.refuses.add(ids[0] ?? "");
    expect(await outbox.drain()).toBe(false);
    expect(state()).toMatchObject({ count: 1, refused: [], anotherShop: true, trouble: { code: "another_shop" } });
    shop.shop = "one";
    shop.refuses.clear();
    expect(await outbox.drain()).toBe(true);
    expect(shop.log.at(-1)).toBe(ids[0]);
    expect(await keep.all()).toEqual([]);
  });

  it("is told apart when it was started in the middle of a run", async () => {
    const { shop, outbox, log, state } = phone();
    await log([said("first")]);
    await outbox.drain();
    await log([said("second")]);
    shop.postEvents = async () => {
      shop.shop = "two";
      throw new ShopFailure("unknown_build", "no such build here", 404);
    };
    expect(await outbox.drain()).toBe(false);
    expect(state()).toMatchObject({ count: 1, refused: [] });
  });

  it("is taken as the right one when a person says so", async () => {
    const { shop, outbox, log, state } = phone();
    await outbox.meet();
    shop.shop = "two";
    const ids = await log([opened(stamp), said("first")]);
    expect(await outbox.drain()).toBe(false);
    expect(await outbox.takeShop()).toBe(true);
    expect(shop.log).toEqual(ids);
    expect(state().anotherShop).toBeUndefined();
  });
});

describe("answers that are not the shop's", () => {
  it.each([
    ["a page of somebody else's at the address", new ShopFailure("strange_answer", "a web page", 404)],
    ["a way to the shop that is shut", new ShopFailure("strange_answer", "bad gateway", 502)],
    ["a shop that is starting", new ShopFailure("not_ready", "starting", 503)],
  ])("%s: entries go on waiting", async (_, failure) => {
    const { shop, outbox, log, state } = phone();
    await log([said("waits")]);
    shop.postEvents = async () => {
      throw failure;
    };
    expect(await outbox.drain()).toBe(false);
    expect(state()).toMatchObject({ count: 1, refused: [] });
  });

  it("a picture without a receipt stays here", async () => {
    const { shop, outbox, keep } = phone();
    const picture = photoParcel();
    await outbox.add([picture], { [picture.sha256]: new Uint8Array([1]) });
    shop.postPhoto = async () => [];
    expect(await outbox.drain()).toBe(false);
    expect((await keep.all()).map(({ id }) => id)).toEqual([picture.id]);
  });
});

describe("a shop put back from an older copy", () => {
  it("is found out before anything is sent to it; what it lost is kept, told, and given back in order with its sounds", async () => {
    const { shop, outbox, keep, log, state } = phone();
    const clip = "cd".repeat(32);
    const before = await log([opened(stamp), said("one")]);
    await outbox.drain();
    const backup = shop.copy();
    const heard = stamp.make("utterance.heard", { text: "two", by: "voice", clip });
    await outbox.add([parcelOf(heard)], { [clip]: new Uint8Array([7]) });
    const first = taken();
    await log([first]);
    await outbox.drain();
    shop.putBack(backup);
    const fixed = { target: first.id, reading: reading("ring_end_gap", { cylinder: 1, ring: "top" }, "0.013") };
    const [correction = "", other = ""] = await log([stamp.make("reading.corrected", fixed), said("three")]);
    await outbox.drain();
    // The correction of a reading that the shop has lost waits with it; what stands alone goes on.
    expect(shop.log).toEqual([...before, other]);
    expect(state().refused.map(({ id, refused }) => [id, refused?.kind])).toEqual([
      [heard.id, "lost"],
      [first.id, "lost"],
    ]);
    expect(await outbox.sendAgain(state().refused.map(({ id }) => id))).toBe(true);
    expect(shop.log).toEqual([...before, other, heard.id, first.id, correction]);
    expect(shop.blobs.has(clip)).toBe(true);
    expect(await keep.all()).toEqual([]);
  });

  it("is looked for without waiting for a picture that is under way", async () => {
    const { shop, keep, outbox, log } = phone();
    await log([opened(stamp)]);
    await outbox.drain();
    const waiting = new Outbox(keep, shop, undefined, () => new Promise(() => undefined));
    expect(await waiting.compare(stamp.build)).toBe(false);
  });

  it("never costs an entry, however often it happens", async () => {
    const move = fc.constantFrom("say", "drain", "backup", "restore", "give back");
    await fc.assert(
      fc.asyncProperty(fc.array(move, { maxLength: 40 }), async (moves) => {
        const { shop, outbox, keep, log, state } = phone();
        const made = await log([opened(stamp)]);
        let backup = shop.copy();
        for (const one of moves) {
          if (one === "say") made.push(...(await log([said(`line ${made.length}`)])));
          else if (one === "drain") await outbox.drain();
          else if (one === "backup") backup = shop.copy();
          else if (one === "restore") shop.putBack(backup);
          else await outbox.sendAgain(state().refused.map(({ id }) => id));
          // Each is in the shop, waits here, or is among the rows it was confirmed by.
          const here = new Set([
            ...(await keep.all()).map(({ id }) => id),
            ...(await keep.log(stamp.build)).map(({ event }) => event.id),
          ]);
          for (const id of made) expect(here.has(id)).toBe(true);
        }
        await outbox.compare(stamp.build);
        await outbox.sendAgain(state().refused.map(({ id }) => id));
        expect([...shop.log].sort()).toEqual([...made].sort());
        expect(await keep.all()).toEqual([]);
      }),
      { numRuns: 200 },
    );
  });
});

describe("entries in a file", () => {
  it("travel with their sounds and pictures and arrive once, as they were made", async () => {
    const from = phone();
    const sound = new Uint8Array([1, 2, 3, 10, 4]);
    const clip = await sha256Hex(sound);
    const bytes = new Uint8Array(2_000_000).map((_, n) => n % 251);
    const picture = { ...photoParcel(), sha256: await sha256Hex(bytes) };
    const heard = stamp.make("utterance.heard", { text: "one", by: "voice", clip });
    await from.outbox.add([parcelOf(opened(stamp)), parcelOf(heard), picture], { [clip]: sound, [picture.sha256]: bytes });
    from.shop.refuses.add(heard.id);
    await from.outbox.drain();
    const parcels = (await from.keep.all()).concat(picture);
    await from.keep.takeIn([picture], { [picture.sha256]: bytes });
    const file = await asFile(await from.keep.all(), from.keep);
    const to = phone();
    await to.log([opened(stamp)]);
    const read = await readCarried(file);
    expect(await to.outbox.takeIn(read.parcels, read.blobs)).toBe(2);
    expect(await to.outbox.takeIn(read.parcels, read.blobs)).toBe(0);
    await to.outbox.drain();
    expect(to.shop.rows.map(({ event }) => event.id)).toEqual(expect.arrayContaining(parcels.map(({ id }) => id)));
    expect([...to.shop.blobs].sort()).toEqual([clip, picture.sha256].sort());
    expect(to.shop.rows.find(({ event }) => event.id === heard.id)?.event.deviceSeq).toBe(1);
  });

  it.each([
    ["another file", new Blob(["{}\n"])],
    ["no line at all", new Blob(["no unsent entries"])],
    ["nothing", new Blob([])],
  ])("%s is refused in a sentence", async (_, file) => {
    await expect(readCarried(file)).rejects.toThrow(/^Expected a file of unsent entries/);
  });

  it("cut off is refused, and nothing of it is taken", async () => {
    const { outbox, keep } = phone();
    const sound = new Uint8Array(5000).fill(3);
    const clip = await sha256Hex(sound);
    await outbox.add([parcelOf(stamp.make("utterance.heard", { text: "one", by: "voice", clip }))], { [clip]: sound });
    const file = await asFile(await keep.all(), keep);
    await expect(readCarried(file.slice(0, file.size - 1))).rejects.toThrow(/cut off or changed/);
  });
});

it("takes nothing in where this device may only look", async () => {
  const keep = new MemoryKeep();
  const outbox = new Outbox(keep, new ModelShop(), undefined, undefined, () => {
    throw new ShopFailure("forbidden_role", "looks only", 403);
  });
  await expect(outbox.add([parcelOf(said("one"))])).rejects.toThrow("looks only");
  expect(await keep.all()).toEqual([]);
});
