// The endpointer on made signals: where speech starts and ends is known to the sample.
import { describe, expect, it } from "vitest";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import { type EndpointEvent, Endpointer } from "../../../extractors/hearing/endpoint.ts";

const RATE = 16_000;
const FRAME = 320;

/** A room of `room` with bursts of tone at the given seconds. */
function signal(seconds: number, bursts: readonly (readonly [number, number])[], room = 0.001): Float32Array {
  const random = seeded(5);
  return Float32Array.from({ length: seconds * RATE }, (_, i) => {
    const at = i / RATE;
    const loud = bursts.some(([from, to]) => at >= from && at < to);
    return (random() * 2 - 1) * room + (loud ? 0.2 * Math.sin(i / 5) : 0);
  });
}

function run(pcm: Float32Array, ear = new Endpointer({ rate: RATE })): EndpointEvent[] {
  const events: EndpointEvent[] = [];
  for (let at = 0; at + FRAME <= pcm.length; at += FRAME) events.push(...ear.push(pcm.subarray(at, at + FRAME)));
  return events;
}

const utterances = (events: readonly EndpointEvent[]) => events.filter((event) => event.kind === "utterance");

describe("the endpointer", () => {
  it("gives an utterance with the moment before it and the silence after", () => {
    const [said, ...more] = utterances(run(signal(5, [[1, 2.5]])));
    expect(more).toEqual([]);
    expect(said?.start).toBeCloseTo(1, 0);
    expect(said?.end).toBeCloseTo(2.5, 1);
    // 0.3 s before, 1.5 s of speech, 0.8 s after.
    expect((said?.pcm.length ?? 0) / RATE).toBeGreaterThan(2.55);
    expect((said?.pcm.length ?? 0) / RATE).toBeLessThan(2.85);
  });

  it("keeps words with short pauses together and sentences with long ones apart", () => {
    expect(
      utterances(
        run(
          signal(6, [
            [1, 1.5],
            [2, 2.6],
          ]),
        ),
      ),
    ).toHaveLength(1);
    expect(
      utterances(
        run(
          signal(7, [
            [1, 1.8],
            [3.2, 4],
          ]),
        ),
      ),
    ).toHaveLength(2);
  });

  it("offers a pause once and again after more speech", () => {
    const pauses = run(
      signal(6, [
        [1, 1.5],
        [2, 2.6],
      ]),
    ).filter((event) => event.kind === "pause");
    expect(pauses).toHaveLength(2);
  });

  it("says that an utterance goes on after a pause, and gives what was said of it up to now", () => {
    const pcm = signal(6, [
      [1, 1.5],
      [2, 2.6],
    ]);
    const events = run(pcm, new Endpointer({ rate: RATE, growingSeconds: 1.2 }));
    expect(events.map(({ kind }) => kind)).toEqual(["start", "pause", "resumed", "growing", "pause", "utterance"]);
    const growing = events.find((event) => event.kind === "growing");
    // The moment before it and the 1.2 s.
    expect((growing?.pcm.length ?? 0) / RATE).toBeCloseTo(1.6, 0);
    expect(run(pcm).map(({ kind }) => kind)).not.toContain("growing");
  });

  it("can be cut at a pause, and what follows is another utterance", () => {
    const ear = new Endpointer({ rate: RATE });
    const pcm = signal(6, [
      [1, 1.5],
      [2, 2.6],
    ]);
    let cuts = 0;
    const starts: number[] = [];
    for (let at = 0; at + FRAME <= pcm.length; at += FRAME) {
      for (const event of ear.push(pcm.subarray(at, at + FRAME))) {
        if (event.kind === "pause") cuts += ear.cut().length;
        if (event.kind === "start") starts.push(event.at);
      }
    }
    expect(cuts).toBe(2);
    expect(starts).toHaveLength(2);
  });

  it("takes no click for speech, nor a machine that comes on for long", () => {
    expect(
      run(
        signal(4, [
          [1, 1.04],
          [2, 2.05],
        ]),
      ),
    ).toEqual([]);
    const machine = run(signal(60, [[5, 60]]));
    expect(utterances(machine).length).toBeLessThanOrEqual(3);
  });

  it("stirs at the first loud moment, before it counts as speech", () => {
    const ear = new Endpointer({ rate: RATE });
    const pcm = signal(2, [[1, 2]]);
    const at = (seconds: number) => pcm.subarray(0, Math.floor((seconds * RATE) / FRAME) * FRAME);
    run(at(1), ear);
    expect(ear.stirring).toBe(false);
    expect(ear.push(pcm.subarray(RATE, RATE + FRAME))).toEqual([]);
    expect(ear.stirring).toBe(true);
  });

  it("ends an utterance that will not end", () => {
    const events = run(signal(16, [[1, 15.5]]), new Endpointer({ rate: RATE, longestSeconds: 5 }));
    expect((utterances(events)[0]?.pcm.length ?? 0) / RATE).toBeLessThan(6);
  });

  it("works at the microphone's own rate", () => {
    const ear = new Endpointer({ rate: 48_000 });
    const events: EndpointEvent[] = [];
    for (let i = 0; i < 200; i += 1)
      events.push(
        ...ear.push(Float32Array.from({ length: 960 }, (_, k) => (i > 50 && i < 100 ? 0.2 : 0.0005) * Math.sin(k / 3))),
      );
    expect(utterances(events)).toHaveLength(1);
  });
});
