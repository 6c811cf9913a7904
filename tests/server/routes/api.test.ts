// The API's main paths, from outside: open a build, log words, events, clips; read them back.
import { createHash } from "node:crypto";
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { buildListSchema, buildSummarySchema, findingsSchema } from "../../../shared/api/builds.ts";
import { clipAnswerSchema, eventsPageSchema, utteranceAnswerSchema } from "../../../shared/api/entries.ts";
import { exportSchema } from "../../../shared/events/events.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { bootShop, clipForm, makeEvent, makeWav, openDemoBuild, textEvent } from "../helper.ts";

const sha256 = (bytes: Buffer) => createHash("sha256").update(bytes).digest("hex");

describe("the caller", () => {
  it("is the owner on the machine itself", async () => {
    const { app } = await bootShop();
    expect((await app.inject("/api/me")).json()).toEqual({ role: "owner", device: "shop", name: "this machine" });
  });
});

describe("builds", () => {
  it("opens one with a spec sheet, lists it and sums it up", async () => {
    const { app } = await bootShop();
    const id = v7();
    const opened = await app.inject({
      method: "POST",
      url: "/api/builds",
      payload: { id, name: " Mill engine ", customer: "The mill", spec: DEMO_SPEC },
    });
    expect(opened.statusCode).toBe(201);
    const summary = buildSummarySchema.parse(opened.json());
    expect(summary).toMatchObject({ id, name: "Mill engine", customer: "The mill", engine: DEMO_SPEC.name, head: { seq: 1 } });
    const listed = buildListSchema.parse((await app.inject("/api/builds")).json());
    expect(listed.builds.map((build) => build.id)).toEqual([id]);
    expect((await app.inject(`/api/builds/${id}`)).json()).toEqual(summary);
    expect(findingsSchema.parse((await app.inject(`/api/builds/${id}/findings`)).json()).head).toEqual(summary.head);
    const again = await app.inject({ method: "POST", url: "/api/builds", payload: { id, name: "Other", demo: true } });
    expect([again.statusCode, again.json().code]).toEqual([409, "build_exists"]);
  });
});

describe("typed words", () => {
  it("are read, logged and counted, at the step and place given", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const payload = { text: "bore 2 3.8750", step: "bores", place: { depth: "top" } };
    const answer = await app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload });
    expect(answer.statusCode).toBe(200);
    const { parsed, events } = utteranceAnswerSchema.parse(answer.json());
    expect(parsed.readings[0]).toMatchObject({ place: { cylinder: 2, depth: "top" }, digits: "3.8750" });
    expect(events.map(({ event }) => event.type)).toEqual(["utterance.heard", "reading.taken"]);
    const page = eventsPageSchema.parse((await app.inject(`/api/builds/${build}/events`)).json());
    expect(page.events.map(({ event }) => event.type)).toEqual([
      "build.opened",
      "step.opened",
      "place.opened",
      "utterance.heard",
      "reading.taken",
    ]);
    const taken = page.events[4]?.event;
    expect(taken?.type === "reading.taken" && taken.data.step).toBe("bores");
    expect((await app.inject(`/api/builds/${build}`)).json().counts).toMatchObject({ readings: 1, utterances: 1 });
  });

  it("sent again under the same id are answered from the log, and other words are refused", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const id = v7();
    const send = (text: string) => app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { id, text } });
    const [first, twin] = await Promise.all([send("bore 2 3.8750"), send("bore 2 3.8750")]);
    expect(twin.json().events).toEqual(first.json().events);
    expect((await send("bore 2 3.8750")).json().events).toEqual(first.json().events);
    const other = await send("bore 3 3.8750");
    expect([other.statusCode, other.json().code]).toEqual([409, "id_conflict"]);
    expect((await app.inject(`/api/builds/${build}`)).json().head.seq).toBe(3);
  });
});

describe("events from a device", () => {
  it("are stored once, in order, with the hash of each", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const events = Array.from({ length: 5 }, (_, i) => textEvent(build, `words ${i}`));
    const send = () => app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload: { events } });
    const first = await send();
    expect(first.statusCode).toBe(200);
    expect(first.json().stored.map((row: { seq: number }) => row.seq)).toEqual([2, 3, 4, 5, 6]);
    expect((await send()).json()).toEqual(first.json());
    const page = (await app.inject(`/api/builds/${build}/events?after=3&limit=2`)).json();
    expect(page.events.map((row: { seq: number }) => row.seq)).toEqual([4, 5]);
    expect(page.last).toBe(6);
    expect(page.events[0].event).toEqual(events[2]);
  });

  it("may open a build that was started without the shop", async () => {
    const { app } = await bootShop();
    const build = v7();
    const events = [makeEvent(build, "build.opened", { name: "Away", spec: DEMO_SPEC }), textEvent(build, "words")];
    expect((await app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload: { events } })).statusCode).toBe(200);
    expect((await app.inject(`/api/builds/${build}`)).json().name).toBe("Away");
  });

  it("that rest on a clip wait until the clip is sent", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const wav = makeWav();
    const events = [makeEvent(build, "utterance.heard", { text: "bore 1 3.8750", by: "voice", clip: sha256(wav) })];
    const send = () => app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload: { events } });
    const early = await send();
    expect([early.statusCode, early.json().code]).toEqual([422, "blob_missing"]);
    const url = `/api/blobs/${sha256(wav)}`;
    expect((await app.inject({ method: "HEAD", url })).statusCode).toBe(404);
    const put = () => app.inject({ method: "PUT", url, payload: wav, headers: { "content-type": "application/octet-stream" } });
    expect((await put()).statusCode).toBe(201);
    expect((await put()).json()).toEqual({ sha256: sha256(wav), bytes: wav.length });
    expect((await app.inject({ method: "HEAD", url })).statusCode).toBe(200);
    // Sent, but no event rests on it yet: it is not handed out.
    expect((await app.inject(url)).statusCode).toBe(404);
    expect((await send()).statusCode).toBe(200);
    const got = await app.inject(url);
    expect([got.statusCode, got.headers["content-type"], got.headers["x-content-type-options"]]).toEqual([
      200,
      "audio/wav",
      "nosniff",
    ]);
    expect(got.rawPayload.equals(wav)).toBe(true);
  });
});

describe("clips", () => {
  it("are heard, logged and kept byte for byte, and play in ranges", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const wav = makeWav(0.5, 16000);
    const answer = await app.inject({
      method: "POST",
      url: `/api/builds/${build}/clips`,
      ...clipForm(wav, { device: "phone-2", by: "Kit", place: '{"depth":"middle"}' }),
    });
    expect(answer.statusCode).toBe(200);
    const body = clipAnswerSchema.parse(answer.json());
    expect(body).toMatchObject({ clip: sha256(wav), heard: "bore 1 3.8755", seconds: 0.5 });
    expect(body.events[0]?.event).toMatchObject({ device: "phone-2", by: "Kit", data: { by: "voice", clip: sha256(wav) } });
    expect(body.parsed.readings[0]?.place).toEqual({ cylinder: 1, depth: "middle" });
    const url = `/api/blobs/${body.clip}`;
    const part = await app.inject({ url, headers: { range: "bytes=0-3" } });
    expect([part.statusCode, part.body, part.headers["content-range"]]).toEqual([206, "RIFF", `bytes 0-3/${wav.length}`]);
    const tail = await app.inject({ url, headers: { range: "bytes=-4" } });
    expect(tail.rawPayload.equals(wav.subarray(-4))).toBe(true);
    const past = await app.inject({ url, headers: { range: `bytes=${wav.length}-` } });
    expect([past.statusCode, past.json().code]).toEqual([416, "bad_range"]);
  });

  it("sent again under the same id are not logged twice", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const id = v7();
    const send = (wav: Buffer) => app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(wav, { id }) });
    const first = await send(makeWav());
    expect((await send(makeWav())).json().events).toEqual(first.json().events);
    const other = await send(makeWav(0.6));
    expect([other.statusCode, other.json().code]).toEqual([409, "id_conflict"]);
    expect((await app.inject(`/api/builds/${build}`)).json().counts.utterances).toBe(1);
  });

  it("are only heard, with nothing stored, at /api/hear", async () => {
    const { app, data } = await bootShop();
    const answer = await app.inject({ method: "POST", url: "/api/hear", ...clipForm(makeWav(0.5, 8000)) });
    expect(answer.json()).toMatchObject({ heard: "bore 1 3.8750", seconds: 1, parsed: { readings: [{ digits: "3.8750" }] } });
    expect(await data.store.heads()).toEqual([]);
    const names = [];
    for await (const name of data.blobs.names()) names.push(name);
    expect(names).toEqual([]);
  });
});

describe("a build's export", () => {
  it("is the whole log with its hashes", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    await app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text: "bore 2 3.8750" } });
    const exported = exportSchema.parse((await app.inject(`/api/builds/${build}/export`)).json());
    expect(exported.build).toBe(build);
    expect(exported.events.map(({ seq }) => seq)).toEqual([1, 2, 3]);
    expect(exported.events.at(-1)?.hash).toBe((await app.inject(`/api/builds/${build}`)).json().head.hash);
  });
});

describe("the service's description", () => {
  it("lists every route with its schemas at /api/openapi.json", async () => {
    const { app } = await bootShop();
    const { openapi, paths } = (await app.inject("/api/openapi.json")).json();
    expect(openapi).toBe("3.1.0");
    const listed = Object.entries(paths).flatMap(([path, verbs]) =>
      Object.keys(verbs as object).map((verb) => `${verb} ${path}`),
    );
    for (const wanted of [
      "get /api/health",
      "get /api/builds",
      "post /api/builds",
      "get /api/builds/{build}",
      "get /api/builds/{build}/events",
      "post /api/builds/{build}/events",
      "post /api/builds/{build}/utterances",
      "post /api/builds/{build}/clips",
      "post /api/builds/{build}/photos",
      "get /api/builds/{build}/findings",
      "get /api/builds/{build}/export",
      "get /api/builds/{build}/live",
      "put /api/blobs/{sha256}",
      "get /api/blobs/{sha256}",
      "get /api/photos/{sha256}/thumb",
      "get /api/photos/{sha256}/full",
      "post /api/hear",
    ])
      expect(listed).toContain(wanted);
    expect(
      paths["/api/builds/{build}/events"].post.requestBody.content["application/json"].schema.properties.events,
    ).toBeDefined();
  });
});
