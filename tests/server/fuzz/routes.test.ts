// Every route of every door under spoiled requests: a refusal in one sentence with a stable code, never a fault, in bounded time
// and memory, telling nothing of the inside; and the book is whole after it. `FUZZ_SECONDS=60 npm run fuzz` goes on for longer.
import { connect } from "node:net";
import fc from "fast-check";
import type { LightMyRequestResponse } from "fastify";
import { beforeAll, describe, expect, it, vi } from "vitest";
import type { App } from "../../../server/http/types.ts";
import { verifyData } from "../../../server/move/verify.ts";
import { errorSchema } from "../../../shared/api/errors.ts";
import { clipForm, makeWav, multipart, takeClosers } from "../helper.ts";
import { bootLan, NAME, pair, type TestLan } from "../lan/lan-helper.ts";
import { goodJpeg } from "../routes/bad-files.ts";
import { bounds, held, PATIENCE_MS, slowest, tellsNothing, within } from "./bounds.ts";
import { type Ground, type Route, requestTo, routesOf } from "./requests.ts";

vi.setConfig({ testTimeout: PATIENCE_MS });

/** Refused for a while or for want of room: told as such, and no fault. */
const NOT_NOW: ReadonlySet<number> = new Set([503, 507]);
/** Tries a route. */
const TRIES = 30;
const MOST_HELD = 96 * 1024 * 1024;

let to: TestLan;
let apps: readonly (readonly [door: string, app: App, ground: Ground])[];
let close: () => Promise<void>;
beforeAll(async () => {
  to = await bootLan();
  const photo = await goodJpeg();
  const url = `/api/builds/${to.build}`;
  const sent = await to.shop.app.inject({
    method: "POST",
    url: `${url}/photos`,
    ...multipart([{ name: "photo", filename: "a.jpg", value: photo }]),
  });
  const clip = await to.shop.app.inject({ method: "POST", url: `${url}/clips`, ...clipForm(makeWav()) });
  const { token } = await to.list.makeLink(to.build, 30, "plain");
  const ground: Ground = {
    build: to.build,
    photo,
    sha256s: [sent.json().events[0].event.data.photo.sha256, clip.json().clip, "f".repeat(64)],
    tokens: [token, "A".repeat(43)],
    hosts: [NAME],
    cookies: [await pair(to, "owner", "secure", "Owner phone"), await pair(to, "bench"), await pair(to, "viewer")],
  };
  const plain = { ...ground, cookies: [await pair(to, "bench", "plain"), ""] };
  apps = [
    ["the shop's own machine", to.shop.app, { ...ground, hosts: ["127.0.0.1"] }],
    ["the secure door", to.lan.secure, ground],
    ["the plain door", to.lan.plain, plain],
  ];
  close = takeClosers();
  return close;
});

/** A stream that does not end is not asked for in memory; it has a test of its own below. */
const endless = ({ path }: Route) => path.endsWith("/live");

function checkAnswer(what: string, answer: LightMyRequestResponse): void {
  const { statusCode: status, headers, body } = answer;
  expect(status < 500 || NOT_NOW.has(status), `${what}: ${status} ${body.slice(0, 300)}`).toBe(true);
  expect(headers["x-content-type-options"], what).toBe("nosniff");
  expect(headers["content-security-policy"], what).toContain("default-src 'none'");
  expect(headers["cache-control"], what).toBeDefined();
  tellsNothing(what, body);
  const html = String(headers["content-type"]).startsWith("text/html");
  if (status >= 400 && body !== "" && !html) {
    const { message } = errorSchema.parse(JSON.parse(body));
    expect(message, what).toMatch(/^Expected [^\n]+$/);
  }
}

describe("spoiled requests", () => {
  it("to every route of every door", async () => {
    const before = held();
    let tried = 0;
    for (const [door, app, ground] of apps) {
      const routes = routesOf(app.printRoutes({ commonPrefix: false })).filter((route) => !endless(route));
      expect(routes.length, door).toBeGreaterThan(15);
      for (const route of routes)
        for (const bound of bounds(TRIES))
          await fc.assert(
            fc.asyncProperty(requestTo(route, ground), async (request) => {
              tried += 1;
              const what = `${door}: ${route.method} ${route.path}`;
              checkAnswer(what, await within(what, () => app.inject(request)));
            }),
            // Time is shared among the routes.
            {
              ...bound,
              ...(bound.interruptAfterTimeLimit === undefined
                ? {}
                : { interruptAfterTimeLimit: bound.interruptAfterTimeLimit / (3 * routes.length) }),
            },
          );
    }
    const grown = held() - before;
    process.stderr.write(
      `fuzz: ${tried} requests, ${Math.round(grown / 1024)} KiB more held, at most ${Math.round(slowest.cpu)} ms of the processor (${slowest.what})\n`,
    );
    expect(grown).toBeLessThan(MOST_HELD);
  });

  it("leave the book whole: every build is read, judged and exported, and every chain holds", async () => {
    const { store } = to.shop.data;
    expect((await verifyData(to.shop.data.dir)).faults).toEqual([]);
    for (const { build } of await store.heads())
      for (const path of ["", "/findings", "/export", "/events"])
        expect((await to.shop.app.inject(`/api/builds/${build}${path}`)).statusCode, path).toBe(200);
  });
});

/** Send bytes as they are; gives what came back until the other side closed or nothing came for a while. */
function sendRaw(port: number, bytes: Uint8Array): Promise<string> {
  return new Promise((resolve) => {
    const socket = connect({ host: "127.0.0.1", port });
    let text = "";
    socket.setTimeout(1000, () => socket.destroy());
    socket.on("data", (chunk) => {
      text += chunk.toString("latin1");
    });
    socket.on("error", () => undefined);
    socket.on("close", () => resolve(text));
    socket.on("connect", () => socket.end(bytes));
  });
}

describe("bytes that are hardly a request", () => {
  const HEADS = [
    "GET /api/health HTTP/1.1\r\nHost: thoubook.local\r\n\r\n",
    "POST /pair HTTP/1.1\r\nHost: thoubook.local\r\nContent-Type: application/x-www-form-urlencoded\r\nContent-Length: 9\r\n\r\ncode=1234",
    "GET /book HTTP/1.1\r\nHost: thoubook.local\r\nTransfer-Encoding: chunked\r\nContent-Length: 5\r\n\r\n5\r\nhello\r\n0\r\n\r\n",
    `GET /${"a".repeat(20_000)} HTTP/1.1\r\nHost: thoubook.local\r\n\r\n`,
    `GET / HTTP/1.1\r\nHost: thoubook.local\r\nX: ${"y".repeat(20_000)}\r\n\r\n`,
    "\u0016\u0003\u0001\u0002",
  ].map((text) => Buffer.from(text, "latin1"));

  it("are refused or dropped, and the next request is answered", async () => {
    const { spoiledBytes } = await import("./spoil.ts");
    for (const bound of bounds(60))
      await fc.assert(
        fc.asyncProperty(spoiledBytes(HEADS), async (bytes) => {
          const text = await within("bytes at the plain door", () => sendRaw(to.plainPort, bytes));
          expect(text).not.toMatch(/^HTTP\/1\.1 5/);
          tellsNothing("bytes at the plain door", text.split("\r\n\r\n").slice(1).join(""));
        }),
        bound,
      );
    expect((await to.lan.plain.inject({ url: "/", headers: { host: NAME } })).statusCode).toBe(200);
  });
});
