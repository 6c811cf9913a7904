// The outbox against a network and a device that fail at random: every event reaches the shop exactly once, in the order it was
// made, and nothing leaves the device before the shop's receipt.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { MemoryKeep } from "../../../web/store/memory-keep.ts";
import { Outbox, type OutboxState } from "../../../web/store/outbox.ts";
import type { EventParcel, PhotoParcel } from "../../../web/store/parcel.ts";
import { testStamp } from "../../support/events.ts";
import { ModelShop, type Weather } from "./model-shop.ts";

const stamp = testStamp();
const clipName = (n: number) => n.toString(16).padStart(64, "0");

function parcelOf(text: string, clip?: string): EventParcel {
  const event = stamp.make("utterance.heard", { text, by: "voice", ...(clip === undefined ? {} : { clip }) });
  return { kind: "event", id: event.id, build: event.build, at: event.at, event };
}

const weather = fc.constantFrom<Weather>("fine", "lost", "unanswered", "twice", "busy");
const step = fc.oneof(
  fc.record({ do: fc.constant("say" as const), clip: fc.boolean() }),
  fc.record({ do: fc.constant("photo" as const) }),
  fc.record({ do: fc.constant("drain" as const), weather: fc.array(weather, { maxLength: 5 }) }),
  // The page is closed and opened again: all that is not in the keep is gone.
  fc.record({ do: fc.constant("restart" as const) }),
);

describe("the outbox", () => {
  it("delivers each event exactly once and in order, whatever the network and the device do", async () => {
    await fc.assert(
      fc.asyncProperty(fc.array(step, { maxLength: 40 }), async (steps) => {
        const shop = new ModelShop();
        const keep = new MemoryKeep();
        let outbox = new Outbox(keep, shop);
        const made: string[] = [];
        const photos: string[] = [];
        let clips = 0;
        for (const one of steps) {
          if (one.do === "say") {
            clips += 1;
            const clip = one.clip ? clipName(clips) : undefined;
            const parcel = parcelOf(`line ${made.length}`, clip);
            await outbox.add([parcel], clip === undefined ? {} : { [clip]: new Uint8Array([clips]) });
            made.push(parcel.id);
          } else if (one.do === "photo") {
            const id = crypto.randomUUID();
            const sha256 = clipName(10_000 + photos.length);
            const parcel: PhotoParcel = {
              kind: "photo",
              id,
              build: stamp.build,
              at: stamp.now(),
              sha256,
              type: "image/jpeg",
              fields: {},
            };
            await outbox.add([parcel], { [sha256]: new Uint8Array([1]) });
            photos.push(id);
          } else if (one.do === "restart") outbox = new Outbox(keep, shop);
          else {
            shop.weather = [...one.weather];
            await outbox.drain();
          }
          // Nothing has left the device that the shop does not have.
          const waiting = new Set((await keep.all()).map(({ id }) => id));
          for (const id of [...made, ...photos])
            expect(waiting.has(id) || shop.log.includes(id) || shop.photos.includes(id)).toBe(true);
        }
        shop.weather = [];
        expect(await outbox.drain()).toBe(true);
        expect(shop.log).toEqual(made);
        expect(shop.photos).toEqual(photos);
        expect(await keep.all()).toEqual([]);
      }),
      { numRuns: 300 },
    );
  });

  it("keeps what the shop refuses, says so, and lets everything after it through", async () => {
    const shop = new ModelShop();
    let state: OutboxState | undefined;
    const outbox = new Outbox(new MemoryKeep(), shop, (now) => {
      state = now;
    });
    const parcels = [parcelOf("one"), parcelOf("bad"), parcelOf("three")];
    shop.refuses.add(parcels[1]?.id ?? "");
    await outbox.add(parcels);
    expect(await outbox.drain()).toBe(true);
    expect(shop.log).toEqual([parcels[0]?.id, parcels[2]?.id]);
    expect(state?.count).toBe(0);
    expect(state?.refused.map(({ id, refused }) => [id, refused?.code])).toEqual([[parcels[1]?.id, "invalid_event"]]);
  });

  it("numbers events of a device one after the other, whatever the caller put there", async () => {
    const outbox = new Outbox(new MemoryKeep(), new ModelShop());
    const first = await outbox.add([parcelOf("a"), parcelOf("b")]);
    const second = await outbox.add([parcelOf("c")]);
    const numbers = [...first, ...second].map((parcel) => (parcel.kind === "event" ? parcel.event.deviceSeq : -1));
    expect(numbers).toEqual([0, 1, 2]);
  });

  it("tells how many wait and since when", async () => {
    const shop = new ModelShop();
    let state: OutboxState | undefined;
    const outbox = new Outbox(new MemoryKeep(), shop, (now) => {
      state = now;
    });
    const parcel = parcelOf("waits");
    await outbox.add([parcel, parcelOf("too")]);
    shop.weather = ["lost"];
    expect(await outbox.drain()).toBe(false);
    expect(state).toMatchObject({ count: 2, oldest: parcel.at, trouble: { code: "out_of_reach" } });
  });
});
