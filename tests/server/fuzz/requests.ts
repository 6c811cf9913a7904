// Requests to any route, from good ones spoiled in one or more places.
import { createHash } from "node:crypto";
import fc from "fast-check";
import type { InjectOptions } from "fastify";
import { type TestStamp, testStamp } from "../../support/events.ts";
import { makeWav } from "../helper.ts";
import { spoiledBytes, spoiledJson, trickText } from "./spoil.ts";

export interface Route {
  readonly method: string;
  /** With its parameters as the service names them: `/api/builds/:build`. */
  readonly path: string;
}

/** The routes of an app, from its own listing. */
export function routesOf(listing: string): Route[] {
  const above: string[] = [];
  const routes: Route[] = [];
  for (const line of listing.split("\n")) {
    const [, indent = "", part = "", methods] = /^((?:│ {3}| {4})*)[├└]── (\S+)(?: \((.+)\))?$/.exec(line) ?? [];
    if (part === "") continue;
    const depth = indent.length / 4;
    above.length = depth;
    above[depth] = part;
    const path = above.join("").replaceAll("//", "/");
    for (const method of methods?.split(", ") ?? []) routes.push({ method, path });
  }
  return routes;
}

/** What good requests are made of. */
export interface Ground {
  readonly build: string;
  readonly photo: Buffer;
  readonly sha256s: readonly string[];
  readonly tokens: readonly string[];
  readonly hosts: readonly string[];
  readonly cookies: readonly string[];
}

const WAV = makeWav(0.2);

function eventSamples(build: string): unknown[] {
  const stamp: TestStamp = testStamp("bench-7f", build);
  const target = "0190a0a0-0000-7000-8000-000000000000";
  return [
    stamp.make("utterance.heard", { text: "bore 1 3.8750", by: "typed" }),
    stamp.make("step.opened", { step: "rings" }),
    stamp.make("place.opened", { place: { cylinder: 2, ring: "top" } }),
    stamp.make("reading.struck", { target }),
    stamp.make("reading.taken", {
      reading: {
        quantity: "bore_diameter",
        place: { cylinder: 1, depth: "top", axis: "thrust" },
        value: 3.875,
        unit: "in",
        digits: "3.8750",
        implied: [],
        do: "accept",
        span: [0, 5],
      },
    }),
    stamp.make("photo.marked", { target, marks: [{ kind: "arrow", x1: 0, y1: 0, x2: 1, y2: 1 }] }),
    stamp.make("part.changed", { part: "bore", place: { cylinder: 1 }, what: "bored" }),
    stamp.make("instrument.zeroed", { instrument: "bore gauge", deviation: "0.0001", unit: "in" }),
    stamp.make("finding.accepted", { rule: "bore_taper", place: { cylinder: 1 }, why: "as agreed", by: "Kit" }),
  ];
}

const JSON_SAMPLES = ({ build }: Ground): readonly unknown[] => [
  { events: eventSamples(build) },
  ...eventSamples(build).map((event) => ({ events: [event] })),
  { text: "bore 1 3.8750", step: "bores", place: { depth: "top" }, device: "bench-7f", by: "Kit" },
  { name: "Mill engine", demo: true, customer: "The mill" },
];
const FORMS: readonly unknown[] = [
  { code: "0123456789", name: "Phone" },
  { role: "bench" },
  { name: "Phone" },
  { text: "bore 1 3.8750" },
  { days: "7", door: "plain", build: "x" },
];

const partHead = (name: string, file: string) =>
  `Content-Disposition: form-data; name="${name}"${file === "" ? "" : `; filename="${file}"`}\r\n\r\n`;

/** A body of a form with a file, whole or not. */
function multipartBody(ground: Ground): fc.Arbitrary<{ payload: Buffer; type: string }> {
  const file = spoiledBytes([WAV, ground.photo]);
  const field = fc.tuple(
    fc.constantFrom("by", "device", "id", "place", "step", "at", "proof", "statement", "sent", "x"),
    trickText,
  );
  return fc
    .record({
      file,
      name: fc.constantFrom("clip", "photo", "other"),
      fields: fc.array(field, { maxLength: 4 }),
      boundary: fc.oneof(fc.constant("b-7f"), trickText),
      torn: fc.option(fc.nat(), { freq: 5 }),
    })
    .map(({ file: bytes, name, fields, boundary, torn }) => {
      const start = `--${boundary}\r\n`;
      const whole = Buffer.concat([
        ...fields.map(([key, value]) => Buffer.from(`${start}${partHead(key, "")}${value}\r\n`)),
        Buffer.from(start + partHead(name, "a.bin")),
        bytes,
        Buffer.from(`\r\n--${boundary}--\r\n`),
      ]);
      // A header holds no line ends and no letters beyond one byte.
      const type = `multipart/form-data; boundary=${boundary.replace(/[^\t\x20-\x7e]/g, "?")}`;
      return { type, payload: torn === null ? whole : whole.subarray(0, torn % (whole.length + 1)) };
    });
}

function body(ground: Ground): fc.Arbitrary<{ payload: Buffer; type: string }> {
  const text = (type: string, value: string) => ({ type, payload: Buffer.from(value) });
  const form = (value: unknown) =>
    text(
      "application/x-www-form-urlencoded",
      new URLSearchParams(Object.entries(value ?? {}).map(([k, v]) => [k, String(v)])).toString(),
    );
  return fc.oneof(
    { weight: 4, arbitrary: spoiledJson(JSON_SAMPLES(ground)).map((value) => text("application/json", JSON.stringify(value))) },
    { weight: 1, arbitrary: trickText.map((value) => text("application/json", value)) },
    { weight: 2, arbitrary: spoiledJson(FORMS).map(form) },
    { weight: 3, arbitrary: multipartBody(ground) },
    {
      weight: 1,
      arbitrary: spoiledBytes([WAV, ground.photo]).map((payload) => ({
        type: "application/octet-stream",
        payload: Buffer.from(payload),
      })),
    },
    {
      weight: 1,
      arbitrary: fc.tuple(trickText, trickText).map(([type, value]) => text(type.replace(/[^\t\x20-\x7e]/g, "?"), value)),
    },
  );
}

const HEADERS = [
  "range",
  "last-event-id",
  "if-none-match",
  "accept",
  "origin",
  "sec-fetch-site",
  "authorization",
  "transfer-encoding",
  "x-forwarded-for",
];

/** A request to this route. */
export function requestTo({ method, path }: Route, ground: Ground): fc.Arbitrary<InjectOptions> {
  const wavHash = createHash("sha256").update(WAV).digest("hex");
  const goodParam = (name: string) =>
    name === "build"
      ? [ground.build]
      : name === "token"
        ? ground.tokens
        : name === "id"
          ? [ground.build]
          : [...ground.sha256s, wavHash];
  const param = (name: string) =>
    fc.oneof(
      { weight: 4, arbitrary: fc.constantFrom(...goodParam(name)) },
      { weight: 1, arbitrary: trickText.map((text) => encodeURIComponent(text.replace(/[\ud800-\udfff]/gu, "?")).slice(0, 400)) },
    );
  const names = [...path.matchAll(/:(\w+)/g)].map(([, name = ""]) => name);
  const header = fc.tuple(
    fc.constantFrom(...HEADERS),
    fc.oneof(fc.constantFrom("bytes=0-3", "bytes=-5", "bytes=9-1", "text/html", "1"), trickText),
  );
  return fc
    .record({
      params: fc.tuple(...names.map(param)),
      query: fc.array(fc.tuple(fc.constantFrom("after", "limit", "paper", "code", "x"), trickText), { maxLength: 3 }),
      headers: fc.array(header, { maxLength: 3 }),
      host: fc.oneof({ weight: 8, arbitrary: fc.constantFrom(...ground.hosts) }, { weight: 1, arbitrary: trickText }),
      cookie: fc.oneof({ weight: 8, arbitrary: fc.constantFrom(...ground.cookies) }, { weight: 1, arbitrary: trickText }),
      body: method === "GET" || method === "HEAD" ? fc.constant(undefined) : fc.option(body(ground), { nil: undefined, freq: 8 }),
    })
    .map(({ params, query, headers, host, cookie, body: sent }) => {
      const pairs = query.map(([key, value]) => `${key}=${encodeURIComponent(value.replace(/[\ud800-\udfff]/gu, "?"))}`);
      const url = names.reduce((text, name, index) => text.replace(`:${name}`, String(params[index])), path);
      const plain = (text: string) => text.replace(/[^\t\x20-\x7e]/g, "?");
      return {
        method: method as "GET",
        url: pairs.length === 0 ? url : `${url}?${pairs.join("&")}`,
        headers: {
          ...Object.fromEntries(headers.map(([name, value]) => [name, plain(value)])),
          host: plain(host),
          cookie: plain(cookie),
          ...(sent === undefined ? {} : { "content-type": sent.type }),
        },
        ...(sent === undefined ? {} : { payload: sent.payload }),
      };
    });
}
