// The door on the machine itself: names, origins, headers, files, and a log that keeps words to itself.
import { mkdir, writeFile } from "node:fs/promises";
import { join } from "node:path";
import { Writable } from "node:stream";
import type { InjectOptions } from "fastify";
import { pino } from "pino";
import { describe, expect, it } from "vitest";
import { buildApp } from "../../../server/app.ts";
import { atEnd, bootShop, clipForm, makeWav, openDemoBuild, tempDir } from "../helper.ts";

const say: InjectOptions = { method: "POST", payload: { text: "bore 1 3.8750" } };

const ATTACKS: readonly (readonly [
  what: string,
  request: InjectOptions & { headers: Record<string, string> },
  status: number,
  code: string,
])[] = [
  ["a rebound name reads", { method: "GET", headers: { host: "evil.example" } }, 403, "forbidden_host"],
  ["a rebound name with the right port", { method: "GET", headers: { host: "evil.example:4380" } }, 403, "forbidden_host"],
  ["a name that ends like ours", { method: "GET", headers: { host: "localhost.evil.example" } }, 403, "forbidden_host"],
  ["a name that starts like ours", { method: "GET", headers: { host: "127.0.0.1.evil.example" } }, 403, "forbidden_host"],
  [
    "another site's page posts",
    { ...say, headers: { host: "127.0.0.1:4380", origin: "https://evil.example" } },
    403,
    "forbidden_origin",
  ],
  ["a page without an origin posts", { ...say, headers: { host: "127.0.0.1:4380", origin: "null" } }, 403, "forbidden_origin"],
  [
    "another port of this machine posts",
    { ...say, headers: { host: "127.0.0.1:4380", origin: "http://127.0.0.1:9000" } },
    403,
    "forbidden_origin",
  ],
  [
    "another scheme posts",
    { ...say, headers: { host: "127.0.0.1:4380", origin: "https://127.0.0.1:4380" } },
    403,
    "forbidden_origin",
  ],
  [
    "another site's form posts, told by fetch metadata",
    { ...say, headers: { host: "127.0.0.1:4380", "sec-fetch-site": "cross-site" } },
    403,
    "forbidden_origin",
  ],
  [
    "another site's page reads by script",
    { method: "GET", headers: { host: "127.0.0.1:4380", origin: "https://evil.example", "sec-fetch-mode": "cors" } },
    403,
    "forbidden_origin",
  ],
  [
    "another site's page shows it as a picture",
    {
      method: "GET",
      headers: { host: "127.0.0.1:4380", "sec-fetch-site": "cross-site", "sec-fetch-mode": "no-cors", "sec-fetch-dest": "image" },
    },
    403,
    "forbidden_origin",
  ],
  [
    "another site's page frames it",
    {
      method: "GET",
      headers: {
        host: "127.0.0.1:4380",
        "sec-fetch-site": "cross-site",
        "sec-fetch-mode": "navigate",
        "sec-fetch-dest": "iframe",
      },
    },
    403,
    "forbidden_origin",
  ],
];

describe("the door", () => {
  it.each(ATTACKS)("%s", async (_what, request, status, code) => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const url = request.method === "POST" ? `/api/builds/${build}/utterances` : `/api/builds/${build}`;
    const answer = await app.inject({ url, ...request });
    expect([answer.statusCode, answer.json().code]).toEqual([status, code]);
    expect((await app.inject(`/api/builds/${build}`)).json().head.seq).toBe(1);
  });

  it.each([
    { host: "127.0.0.1:4380", origin: "http://127.0.0.1:4380", "sec-fetch-site": "same-origin" },
    { host: "localhost:4380", origin: "http://localhost:4380" },
    { host: "[::1]:4380", origin: "http://[::1]:4380" },
    { host: "127.0.0.1" },
  ])("lets the service's own page write: %o", async (headers) => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const answer = await app.inject({
      ...say,
      url: `/api/builds/${build}/utterances`,
      headers: headers as Record<string, string>,
    });
    expect(answer.statusCode).toBe(200);
  });

  it("sends a strict content policy and no header that a plain-http page in the shop would choke on", async () => {
    const { app } = await bootShop();
    const { headers } = await app.inject("/api/health");
    const policy = String(headers["content-security-policy"]);
    for (const part of [
      "default-src 'none'",
      "script-src 'self' 'wasm-unsafe-eval'",
      "worker-src 'self' blob:",
      "media-src 'self' blob:",
      "img-src 'self' blob: data:",
      "frame-ancestors 'none'",
    ])
      expect(policy).toContain(part);
    expect(policy).not.toMatch(/upgrade-insecure-requests|'unsafe-eval'|'unsafe-inline'|\*/);
    expect(headers["permissions-policy"]).toContain("microphone=(self)");
    expect(headers["permissions-policy"]).toContain("usb=()");
    expect(headers["strict-transport-security"]).toBeUndefined();
    expect(headers["x-content-type-options"]).toBe("nosniff");
    expect(headers["referrer-policy"]).toBe("same-origin");
    expect(headers["access-control-allow-origin"]).toBeUndefined();
  });
});

describe("what may be kept of an answer", () => {
  it("is nothing, of everything that is of this shop, refusals among it", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const clip = await app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) });
    const asked: readonly (string | InjectOptions)[] = [
      "/api/health",
      "/api/me",
      "/api/builds",
      "/api/openapi.json",
      `/api/builds/${build}`,
      `/api/builds/${build}/events`,
      `/api/builds/${build}/findings`,
      `/api/builds/${build}/export`,
      `/api/builds/${build}/cards`,
      { method: "HEAD", url: `/api/blobs/${clip.json().clip}` },
      { ...say, url: `/api/builds/${build}/utterances` },
      { ...say, url: `/api/builds/${build}/utterances`, payload: { text: 7 } },
      "/api/none",
      "/none",
      { url: "/api/builds", headers: { host: "evil.example" } },
      { url: "/%00" },
    ];
    for (const request of asked) {
      const { headers } = await app.inject(request);
      expect(headers["cache-control"], JSON.stringify(request)).toBe("no-store");
    }
  });

  it("is a sound, which is named by its hash, by its one caller", async () => {
    const { app } = await bootShop();
    const build = await openDemoBuild(app);
    const clip = await app.inject({ method: "POST", url: `/api/builds/${build}/clips`, ...clipForm(makeWav()) });
    const { headers } = await app.inject(`/api/blobs/${clip.json().clip}`);
    expect(headers["cache-control"]).toBe("private, max-age=31536000, immutable");
  });
});

describe("files", () => {
  async function withFiles() {
    const dir = await tempDir();
    await mkdir(join(dir, "web/assets"), { recursive: true });
    await mkdir(join(dir, "model"), { recursive: true });
    await writeFile(join(dir, "web/index.html"), "<!doctype html><title>screens</title>");
    await writeFile(join(dir, "web/assets/app-1a2b.js"), "export {};");
    await writeFile(join(dir, "web/sw.js"), "self.x = 1;");
    await writeFile(join(dir, "model/mdef"), "model");
    await writeFile(join(dir, "secret.txt"), "secret");
    return bootShop({ deps: { webDir: join(dir, "web"), modelFiles: new Map([["mdef", join(dir, "model/mdef")]]) } });
  }
  const page = { accept: "text/html,*/*" };

  it.each([
    ["/", page, 200, "screens"],
    ["/builds/some/place", page, 200, "screens"],
    ["/assets/app-1a2b.js", {}, 200, "export"],
    ["/sw.js", {}, 200, "self.x"],
    ["/model/mdef", {}, 200, "model"],
    ["/model/missing", page, 404, "not_found"],
    ["/model/", page, 404, "not_found"],
    ["/assets/gone-9z.js", page, 404, "not_found"],
    ["/builds/some/place", { accept: "application/json" }, 404, "not_found"],
    ["/api/none", page, 404, "not_found"],
    ["/../secret.txt", page, 404, "not_found"],
    ["/..%2fsecret.txt", page, 404, "not_found"],
    ["/model/..%2f..%2fsecret.txt", page, 404, "not_found"],
    ["/%00", page, 400, "invalid_request"],
    ["/.%2e/secret.txt", {}, 404, "not_found"],
  ])("%s with %o", async (url, headers, status, text) => {
    const { app } = await withFiles();
    const answer = await app.inject({ url, headers: headers as Record<string, string> });
    const lasting = url.startsWith("/assets/app")
      ? "public, max-age=31536000, immutable"
      : /no-cache|no-store|public, max-age=86400/;
    expect(answer.headers["cache-control"]).toMatch(lasting);
    expect(answer.body).toContain(text);
    expect(answer.body).not.toContain("secret\n");
    expect(answer.statusCode).toBe(status);
  });

  it("says in one line what to do when the screens are not built", async () => {
    const { app } = await bootShop();
    const answer = await app.inject({ url: "/", headers: page });
    expect([answer.statusCode, answer.body]).toEqual([503, "The screens are not built: run npm run build, then start again.\n"]);
  });
});

describe("the log", () => {
  it("tells of each request but never what was said, sent, or shown to get in", async () => {
    const lines: string[] = [];
    const sink = new Writable({
      write: (chunk, _encoding, done) => {
        lines.push(String(chunk));
        done();
      },
    });
    const shop = await bootShop();
    const app = await buildApp(shop.deps, { logger: pino({ level: "info" }, sink) });
    atEnd(() => app.close());
    const build = await openDemoBuild(app);
    const headers = { cookie: "thoubook=topsecretcookie", authorization: "Bearer topsecretbearer" };
    await app.inject({
      method: "POST",
      url: `/api/builds/${build}/utterances?q=topsecretquery`,
      payload: { text: "topsecretwords" },
      headers,
    });
    await app.inject({
      method: "POST",
      url: `/api/builds/${build}/utterances`,
      payload: { text: "topsecretwords", by: 7 },
      headers,
    });
    await app.inject({
      method: "POST",
      url: `/api/builds/${build}/utterances`,
      payload: '{"text": topsecretwords',
      headers: { ...headers, "content-type": "application/json" },
    });
    await app.inject({ url: "/topsecretpath", headers });
    const log = lines.join("");
    expect(lines.length).toBeGreaterThanOrEqual(5);
    expect(log).toContain('"route":"/api/builds/:build/utterances"');
    expect(log).toContain('"code":"invalid_request"');
    expect(log).not.toContain("topsecret");
  });
});
