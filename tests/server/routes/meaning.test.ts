// Events of the right shape that make no sense: the door refuses them with a stable code and stores nothing; where an older
// version let them in, the book is open all the same and names them.
import { describe, expect, it } from "vitest";
import { parseWhy } from "../../../extractors/speech/index.ts";
import { buildSummarySchema, findingsSchema } from "../../../shared/api/builds.ts";
import { eventsPageSchema, utteranceAnswerSchema } from "../../../shared/api/entries.ts";
import { ERROR_STATUS, errorSchema } from "../../../shared/api/errors.ts";
import { type BenchEvent, exportSchema } from "../../../shared/events/events.ts";
import { faultOf, MEANING_CODES } from "../../../shared/events/meaning.ts";
import type { Reading } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { TABLES } from "../../extractors/speech/cases/all.ts";
import { bootShop, makeEvent, openDemoBuild } from "../helper.ts";

const read = (more: Partial<Reading> = {}): Reading => ({
  quantity: "bore_diameter",
  place: { cylinder: 1 },
  value: 3.875,
  unit: "in",
  digits: "3.8750",
  implied: [],
  do: "accept",
  span: [0, 1],
  ...more,
});
const gauge = {
  instrument: "bore gauge",
  kind: "dial",
  resolution: "0.0001",
  uncertainty: "0.0002",
  unit: "in" as const,
  quantities: ["bore_diameter"],
};
/** So many objects within each other. */
const nested = (levels: number): Record<string, unknown> => {
  let inner = {};
  for (let i = 0; i < levels; i += 1) inner = { inner };
  return inner;
};
const limits = DEMO_SPEC.limits.map((limit, i) => (i === 0 ? { ...limit, unit: "g" as const } : limit));

const SENSELESS: readonly (readonly [what: string, code: string, make: (build: string) => BenchEvent])[] = [
  ["a length in grams", "wrong_unit", (b) => makeEvent(b, "reading.taken", { reading: read({ unit: "g" }) })],
  ["digits of another value", "wrong_digits", (b) => makeEvent(b, "reading.taken", { reading: read({ digits: "3.8850" }) })],
  [
    "a value beyond all measure",
    "out_of_range",
    (b) => makeEvent(b, "reading.taken", { reading: read({ value: 1e300, digits: `1${"0".repeat(20)}` }) }),
  ],
  [
    "more digits than any gauge has",
    "no_number",
    (b) => makeEvent(b, "reading.taken", { reading: read({ digits: `3.875${"0".repeat(500)}` }) }),
  ],
  [
    "a spring's force at no length",
    "out_of_range",
    (b) =>
      makeEvent(b, "reading.taken", {
        reading: read({
          quantity: "valve_spring_force",
          place: { cylinder: 1, valve: "intake" },
          unit: "lbf",
          value: 45,
          digits: "45",
          over: { value: 0, unit: "in", digits: "0" },
        }),
      }),
  ],
  [
    "a length over a mass",
    "wrong_unit",
    (b) =>
      makeEvent(b, "reading.taken", {
        reading: read({
          quantity: "valve_spring_force",
          place: { cylinder: 1, valve: "intake" },
          unit: "lbf",
          value: 45,
          digits: "45",
          over: { value: 2, unit: "g", digits: "2" },
        }),
      }),
  ],
  ["an uncertainty that is no number", "no_number", (b) => makeEvent(b, "instrument.kept", { ...gauge, uncertainty: "small" })],
  ["an uncertainty below nothing", "out_of_range", (b) => makeEvent(b, "instrument.kept", { ...gauge, uncertainty: "-0.0002" })],
  [
    "a deviation that is no number",
    "no_number",
    (b) => makeEvent(b, "instrument.zeroed", { instrument: "bore gauge", deviation: "none", unit: "in" }),
  ],
  [
    "a question nested a thousand deep",
    "too_deep",
    (b) => makeEvent(b, "question.asked", { question: { code: "which_cylinder", say: "Which one?", about: nested(1000) } }),
  ],
  ["a limit in another dimension", "no_sense", (b) => makeEvent(b, "spec.revised", { spec: { ...DEMO_SPEC, limits } })],
];
const LAST_NUMBER = (b: string) => makeEvent(b, "reading.taken", { reading: read() }, { deviceSeq: Number.MAX_SAFE_INTEGER });

describe("at the door", () => {
  it.each([...SENSELESS, ["a number from which a device cannot count on", "out_of_range", LAST_NUMBER] as const])(
    "%s is refused with %s",
    async (_what, code, make) => {
      const shop = await bootShop();
      const build = await openDemoBuild(shop.app);
      const before = await shop.data.store.head(build);
      const events = [makeEvent(build, "step.opened", { step: "bores" }), make(build)];
      const answer = await shop.app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload: { events } });
      const body = errorSchema.parse(answer.json());
      expect([answer.statusCode, body.code]).toEqual([422, code]);
      expect(body.message).toMatch(/^(\S+: )?Expected .+, got .+/);
      expect(await shop.data.store.head(build)).toEqual(before);
    },
  );

  it("a question nested a hundred thousand deep is refused, and the service goes on", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const event = makeEvent(build, "question.asked", {
      question: { code: "which_cylinder", say: "Which one?", about: { x: "HERE" } },
    });
    const payload = JSON.stringify({ events: [event] }).replace('"HERE"', `${"[".repeat(100_000)}${"]".repeat(100_000)}`);
    const headers = { "content-type": "application/json" };
    const answer = await app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload, headers });
    expect([answer.statusCode, answer.json().code]).toEqual([422, "too_deep"]);
    expect((await app.inject(`/api/builds/${build}`)).statusCode).toBe(200);
  });

  it("a sheet with a limit in another dimension opens no build", async () => {
    const { app, data } = await bootShop();
    const answer = await app.inject({
      method: "POST",
      url: "/api/builds",
      payload: { name: "Odd", spec: { ...DEMO_SPEC, limits } },
    });
    expect([answer.statusCode, answer.json().code]).toEqual([422, "no_sense"]);
    expect(await data.store.heads()).toEqual([]);
  });

  it("every code has its status", () => {
    for (const code of MEANING_CODES) expect(ERROR_STATUS[code]).toBe(422);
  });

  it("all that the parser makes of its cases makes sense", () => {
    let readings = 0;
    for (const { accepted, refused } of Object.values(TABLES))
      for (const { say, context } of [...accepted, ...refused])
        for (const text of say) {
          const { parsed } = parseWhy(text, context ?? {}, DEMO_SPEC);
          readings += parsed.readings.length;
          for (const reading of parsed.readings)
            expect([text, faultOf(makeEvent("", "reading.taken", { reading }))]).toEqual([text, undefined]);
          for (const question of parsed.questions)
            expect([text, faultOf(makeEvent("", "question.asked", { question }))]).toEqual([text, undefined]);
        }
    expect(readings).toBeGreaterThan(200);
  });
});

describe("in a log of an older version", () => {
  it("each is named, and every page of the book answers", async () => {
    const shop = await bootShop();
    const build = await openDemoBuild(shop.app);
    // Past the door, as a version without one stored them.
    const sound = makeEvent(build, "reading.taken", { reading: read({ place: { cylinder: 2 } }) });
    const unknown = { ...makeEvent(build, "step.opened", { step: "bores" }), type: "reading.guessed" } as never;
    await shop.data.store.append([...SENSELESS.map(([, , make]) => make(build)), unknown, LAST_NUMBER(build), sound]);
    const get = async (path: string) => {
      const answer = await shop.app.inject(`/api/builds${path}`);
      expect([path, answer.statusCode]).toEqual([path, 200]);
      return answer.json();
    };
    const summary = buildSummarySchema.parse(await get(`/${build}`));
    expect(summary.setAside.map(({ seq, code }) => [seq, code])).toEqual([
      ...SENSELESS.map(([, code], i) => [i + 2, code]),
      [SENSELESS.length + 2, "unreadable"],
    ]);
    expect(summary.counts.readings).toBe(2);
    findingsSchema.parse(await get(`/${build}/findings`));
    expect((await get("")).builds.map(({ id }: { id: string }) => id)).toEqual([build]);
    expect((await get(`/${build}/events`)).events.length).toBe(SENSELESS.length + 4);
    // The device whose number could not be counted on goes on counting.
    const said = await shop.app.inject({
      method: "POST",
      url: `/api/builds/${build}/utterances`,
      payload: { text: "bore 3 3.8750", device: "phone-1" },
    });
    expect(said.statusCode).toBe(200);
    expect(utteranceAnswerSchema.parse(said.json()).events.length).toBe(2);
  });

  it("a sheet that makes no sense loses those rows only", async () => {
    const shop = await bootShop();
    const opening = makeEvent("01890000-0000-7000-8000-000000000001", "build.opened", {
      name: "Old",
      spec: { ...DEMO_SPEC, limits },
    });
    await shop.data.store.append([opening, makeEvent(opening.build, "reading.taken", { reading: read() })]);
    const summary = buildSummarySchema.parse((await shop.app.inject(`/api/builds/${opening.build}`)).json());
    expect(summary.setAside.map(({ seq, code }) => [seq, code])).toEqual([[1, "no_sense"]]);
    expect(summary.spec.limits.length).toBe(limits.length - 1);
    exportSchema.parse((await shop.app.inject(`/api/builds/${opening.build}/export`)).json());
  });

  it("a build whose first entry opens none is named, and the others are listed", async () => {
    const shop = await bootShop();
    const build = await openDemoBuild(shop.app);
    const odd = makeEvent("01890000-0000-7000-8000-000000000002", "build.opened", { name: "Odd", spec: undefined as never });
    await shop.data.store.append([odd]);
    const list = (await shop.app.inject("/api/builds")).json();
    expect(list.builds.map(({ id }: { id: string }) => id)).toEqual([build]);
    expect(list.unreadable.map(({ id }: { id: string }) => id)).toEqual([odd.build]);
    const answer = await shop.app.inject(`/api/builds/${odd.build}`);
    expect([answer.statusCode, answer.json().code]).toEqual([422, "unreadable_build"]);
    eventsPageSchema.parse((await shop.app.inject(`/api/builds/${build}/events`)).json());
  });
});
