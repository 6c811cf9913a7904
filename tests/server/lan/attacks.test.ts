// Attacks tried from outside, over real sockets: what was tried, what must come back, and that the book is untouched.
import { request as httpsRequest } from "node:https";
import sharp from "sharp";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { clipForm, makeWav, multipart, openDemoBuild, takeClosers, textEvent } from "../helper.ts";
import { type Answer, type Ask, ask, bootLan, form, json, NAME, pair, type TestLan } from "./lan-helper.ts";

interface Scene {
  readonly to: TestLan;
  readonly other: string;
  readonly cookies: Readonly<Record<"owner" | "bench" | "viewer" | "cut" | "plain", string>>;
  readonly link: string;
  readonly deadLink: string;
  readonly oldLink: string;
  readonly usedCode: string;
  readonly otherPhoto: string;
  readonly deviceId: string;
}

/** A shop with two builds, devices of each role, one cut off, and links good, revoked and over. */
async function makeScene(): Promise<Scene> {
  const to = await bootLan();
  const other = await openDemoBuild(to.shop.app);
  const photo = await sharp({ create: { width: 40, height: 30, channels: 3, background: "#345" } })
    .jpeg()
    .toBuffer();
  const sent = await to.shop.app.inject({
    method: "POST",
    url: `/api/builds/${other}/photos`,
    ...multipart([{ name: "photo", filename: "a.jpg", value: photo }]),
  });
  const cookies = {
    owner: await pair(to, "owner", "secure", "Owner phone"),
    bench: await pair(to, "bench"),
    viewer: await pair(to, "viewer"),
    cut: await pair(to, "bench", "secure", "Lost phone"),
    plain: await pair(to, "owner", "plain", "Old tablet"),
  };
  const lost = (await to.list.devices()).find((device) => device.name === "Lost phone");
  await to.list.cutOff(lost?.id ?? "");
  const { token: link } = await to.list.makeLink(to.build, 7);
  const dead = await to.list.makeLink(to.build, 7);
  await to.list.revokeLink(dead.link.id);
  const { token: oldLink } = await to.list.makeLink(to.build, -1);
  const { code: usedCode } = to.pairing.make("bench");
  to.pairing.redeem(usedCode);
  const { code: _unused } = to.pairing.make("owner");
  return {
    to,
    other,
    cookies,
    link,
    deadLink: dead.token,
    oldLink,
    usedCode,
    otherPhoto: sent.json().events[0].event.data.photo.sha256,
    deviceId: (await to.list.devices())[0]?.id ?? "",
  };
}

type Tried = (scene: Scene) => Ask | Promise<Ask>;
type Expected = readonly [status: number, code: string | undefined];

const say = (scene: Scene) => `/api/builds/${scene.to.build}/utterances`;
const words = json({ text: "bore 1 3.8750" });
const as = (cookie: string, more: Record<string, string> = {}) => ({ cookie, ...more });
const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(1)</script></svg>');

const ATTACKS: readonly (readonly [what: string, tried: Tried, expected: Expected])[] = [
  // Names and origins
  [
    "a rebound name on the secure door",
    (s) => ({ door: "secure", path: "/api/builds", host: "evil.example", headers: as(s.cookies.owner) }),
    [403, "forbidden_host"],
  ],
  [
    "a rebound name on the plain door",
    (s) => ({ door: "plain", path: "/book", host: "evil.example", headers: as(s.cookies.plain) }),
    [403, "forbidden_host"],
  ],
  [
    "an address that is not this machine's",
    (s) => ({ door: "secure", path: "/api/builds", host: "192.168.7.21", headers: as(s.cookies.owner) }),
    [403, "forbidden_host"],
  ],
  [
    "another site's page posting words",
    (s) => ({
      door: "secure",
      path: say(s),
      ...words,
      headers: { ...words.headers, ...as(s.cookies.bench, { origin: "https://evil.example" }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "the plain door's page posting to the secure door",
    (s) => ({
      door: "secure",
      path: say(s),
      ...words,
      headers: { ...words.headers, ...as(s.cookies.bench, { origin: `http://${NAME}:${s.to.plainPort}` }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "another site's form making a pairing code",
    (s) => ({
      door: "secure",
      path: "/door/codes",
      ...form({ role: "owner" }),
      headers: { ...form({}).headers, ...as(s.cookies.owner, { origin: "null", "sec-fetch-site": "cross-site" }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "another site's form cutting a device off",
    (s) => ({
      door: "secure",
      path: `/door/devices/${s.deviceId}/cut-off`,
      ...form({}),
      headers: { ...form({}).headers, ...as(s.cookies.owner, { origin: "https://evil.example" }) },
    }),
    [403, "forbidden_origin"],
  ],
  [
    "another site's page reading the builds",
    (s) => ({
      door: "secure",
      path: "/api/builds",
      headers: as(s.cookies.viewer, { origin: "https://evil.example", "sec-fetch-mode": "cors", "sec-fetch-site": "cross-site" }),
    }),
    [403, "forbidden_origin"],
  ],
  [
    "a form's own content type at the API",
    (s) => ({
      door: "secure",
      path: say(s),
      ...form({ text: "bore 1 3.8750" }),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [415, "wrong_type"],
  ],
  // Nobody
  ["nobody reading the builds", () => ({ door: "secure", path: "/api/builds" }), [401, "not_paired"]],
  ["nobody reading the builds by an escaped path", () => ({ door: "secure", path: "/%61pi/builds" }), [401, "not_paired"]],
  ["nobody reading the builds by a doubled slash", () => ({ door: "secure", path: "//api/builds" }), [404, "not_found"]],
  ["nobody reading the builds by other letters", () => ({ door: "secure", path: "/API/builds" }), [404, "not_found"]],
  ["nobody writing", (s) => ({ door: "secure", path: say(s), ...words }), [401, "not_paired"]],
  ["nobody watching live", (s) => ({ door: "secure", path: `/api/builds/${s.to.build}/live` }), [401, "not_paired"]],
  ["nobody fetching the description of the service", () => ({ door: "secure", path: "/api/openapi.json" }), [401, "not_paired"]],
  [
    "nobody sending a blob",
    () => ({
      door: "secure",
      path: `/api/blobs/${"a".repeat(64)}`,
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: "x",
    }),
    [401, "not_paired"],
  ],
  ["nobody looking at a photo", (s) => ({ door: "secure", path: `/api/photos/${s.otherPhoto}/thumb` }), [401, "not_paired"]],
  ["nobody at the owner's page", () => ({ door: "secure", path: "/door" }), [401, "not_paired"]],
  ["nobody in the book over plain http", () => ({ door: "plain", path: "/book" }), [401, "not_paired"]],
  ["the API over plain http", (s) => ({ door: "plain", path: "/api/builds", headers: as(s.cookies.plain) }), [404, "not_found"]],
  // Passes
  [
    "an invented pass",
    () => ({ door: "secure", path: "/api/builds", headers: as(`__Host-thoubook=${"A".repeat(43)}`) }),
    [401, "not_paired"],
  ],
  [
    "a pass with a quote in it",
    () => ({ door: "secure", path: "/api/builds", headers: as("__Host-thoubook=' OR 1=1 --") }),
    [401, "not_paired"],
  ],
  ["a cut-off device reading", (s) => ({ door: "secure", path: "/api/builds", headers: as(s.cookies.cut) }), [401, "not_paired"]],
  [
    "a cut-off device writing",
    (s) => ({ door: "secure", path: say(s), ...words, headers: { ...words.headers, ...as(s.cookies.cut) } }),
    [401, "not_paired"],
  ],
  [
    "a plain pass at the secure door",
    (s) => ({ door: "secure", path: "/api/builds", headers: as(s.cookies.plain.replace("thoubook_plain", "__Host-thoubook")) }),
    [401, "not_paired"],
  ],
  [
    "a secure pass at the plain door",
    (s) => ({ door: "plain", path: "/book", headers: as(s.cookies.owner.replace("__Host-thoubook", "thoubook_plain")) }),
    [401, "not_paired"],
  ],
  [
    "a pass as a bearer token",
    (s) => ({ door: "secure", path: "/api/builds", headers: { authorization: `Bearer ${s.cookies.owner.split("=")[1]}` } }),
    [401, "not_paired"],
  ],
  // Roles
  [
    "a viewer writing words",
    (s) => ({ door: "secure", path: say(s), ...words, headers: { ...words.headers, ...as(s.cookies.viewer) } }),
    [403, "forbidden_role"],
  ],
  [
    "a viewer sending events",
    (s) => {
      const body = json({ events: [textEvent(s.to.build, "a")] });
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/events`,
        ...body,
        headers: { ...body.headers, ...as(s.cookies.viewer) },
      };
    },
    [403, "forbidden_role"],
  ],
  [
    "a viewer sending a clip",
    (s) => {
      const { payload, headers } = clipForm(makeWav());
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/clips`,
        method: "POST",
        body: payload,
        headers: { ...headers, ...as(s.cookies.viewer) },
      };
    },
    [403, "forbidden_role"],
  ],
  [
    "a viewer opening a build",
    (s) => {
      const body = json({ name: "x", demo: true });
      return { door: "secure", path: "/api/builds", ...body, headers: { ...body.headers, ...as(s.cookies.viewer) } };
    },
    [403, "forbidden_role"],
  ],
  [
    "a viewer at the owner's page",
    (s) => ({ door: "secure", path: "/door", headers: as(s.cookies.viewer) }),
    [403, "forbidden_role"],
  ],
  [
    "the bench making an owner's code",
    (s) => ({
      door: "secure",
      path: "/door/codes",
      ...form({ role: "owner" }),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [403, "forbidden_role"],
  ],
  [
    "the bench cutting the owner off",
    (s) => ({
      door: "secure",
      path: `/door/devices/${s.deviceId}/cut-off`,
      ...form({}),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [403, "forbidden_role"],
  ],
  [
    "the bench making a customer link",
    (s) => ({
      door: "secure",
      path: "/door/links",
      ...form({ build: s.to.build, days: "7" }),
      headers: { ...form({}).headers, ...as(s.cookies.bench) },
    }),
    [403, "forbidden_role"],
  ],
  // Pairing
  ["a used pairing code", (s) => ({ door: "secure", path: "/pair", ...form({ code: s.usedCode, name: "x" }) }), [401, undefined]],
  [
    "an empty pairing code",
    () => ({ door: "secure", path: "/pair", ...form({ code: "", name: "x" }) }),
    [400, "invalid_request"],
  ],
  [
    "a pairing form of a megabyte",
    () => ({ door: "secure", path: "/pair", ...form({ code: "x".repeat(1_000_000), name: "x" }) }),
    [413, "too_large"],
  ],
  // Customer links
  [
    "a customer link asking for another build by the API",
    (s) => ({ door: "secure", path: `/api/builds/${s.other}`, headers: as(`__Host-thoubook=${s.link}`) }),
    [401, "not_paired"],
  ],
  [
    "a customer link asking for its own build by the API",
    (s) => ({ door: "secure", path: `/api/builds/${s.to.build}/export`, headers: { authorization: `Bearer ${s.link}` } }),
    [401, "not_paired"],
  ],
  [
    "a customer link asking for another build's photo",
    (s) => ({ door: "secure", path: `/record/${s.link}/photos/${s.otherPhoto}/thumb` }),
    [404, "unknown_blob"],
  ],
  [
    "a customer link with another build behind it",
    (s) => ({ door: "secure", path: `/record/${s.link}/${s.other}` }),
    [404, "not_found"],
  ],
  ["a customer link climbing out", (s) => ({ door: "secure", path: `/record/${s.link}/../../api/builds` }), [404, "not_found"]],
  ["a customer link that writes", (s) => ({ door: "secure", path: `/record/${s.link}`, ...words }), [401, "not_paired"]],
  ["a revoked customer link", (s) => ({ door: "secure", path: `/record/${s.deadLink}` }), [404, "unknown_link"]],
  ["a customer link that is over", (s) => ({ door: "secure", path: `/record/${s.oldLink}` }), [404, "unknown_link"]],
  ["an invented customer link", () => ({ door: "secure", path: `/record/${"A".repeat(43)}` }), [404, "unknown_link"]],
  ["a customer link at the plain door", (s) => ({ door: "plain", path: `/record/${s.link}` }), [404, "not_found"]],
  // Files and paths
  ["a path out of the screens' folder", () => ({ door: "secure", path: "/../../../../etc/passwd" }), [404, "not_found"]],
  ["a path out, escaped", () => ({ door: "secure", path: "/%2e%2e/%2e%2e/etc/passwd" }), [404, "not_found"]],
  [
    "a path out of the model's folder, escaped slashes",
    () => ({ door: "secure", path: "/model/..%2f..%2f..%2fetc/passwd" }),
    [404, "not_found"],
  ],
  [
    "the database as a blob",
    (s) => ({ door: "secure", path: "/api/blobs/..%2fthoubook.db", headers: as(s.cookies.owner) }),
    [404, "unknown_blob"],
  ],
  ["the authority's key", () => ({ door: "plain", path: "/authority.key.pem" }), [404, "not_found"]],
  [
    "a photo's original, which may say where it was taken",
    (s) => ({ door: "secure", path: `/api/blobs/${s.otherPhoto}`, headers: as(s.cookies.owner) }),
    [404, "unknown_blob"],
  ],
  [
    "an SVG with script as a photo",
    (s) => {
      const body = multipart([{ name: "photo", filename: "a.jpg", type: "image/jpeg", value: svg }]);
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/photos`,
        method: "POST",
        body: body.payload,
        headers: { ...body.headers, ...as(s.cookies.bench) },
      };
    },
    [415, "wrong_type"],
  ],
  [
    "an SVG with script as a photo over plain http",
    (s) => {
      const body = multipart([{ name: "photo", filename: "a.svg", type: "image/svg+xml", value: svg }]);
      return {
        door: "plain",
        path: `/book/${s.to.build}/photos`,
        method: "POST",
        body: body.payload,
        headers: { ...body.headers, ...as(s.cookies.plain) },
      };
    },
    [415, "wrong_type"],
  ],
  [
    "a web page as a clip",
    (s) => {
      const body = clipForm(Buffer.from("<!doctype html><script>alert(1)</script>"));
      return {
        door: "secure",
        path: `/api/builds/${s.to.build}/clips`,
        method: "POST",
        body: body.payload,
        headers: { ...body.headers, ...as(s.cookies.bench) },
      };
    },
    [415, "clip_not_wav"],
  ],
  [
    "a method to trace with",
    (s) => ({ door: "secure", path: "/api/builds", method: "OPTIONS", headers: as(s.cookies.owner) }),
    [404, "not_found"],
  ],
];

describe("attacks from outside", () => {
  let scene: Scene;
  let before: unknown;
  let close: () => Promise<void>;
  beforeAll(async () => {
    scene = await makeScene();
    close = takeClosers();
  });
  afterAll(() => close());
  const heads = async () => [
    await scene.to.shop.data.store.heads(),
    (await scene.to.list.devices()).map(({ id, role }) => [id, role]),
    (await scene.to.list.links()).length,
  ];

  it.each(ATTACKS)("%s", async (_what, tried, [status, code]) => {
    before = await heads();
    const answer = await ask(scene.to, await tried(scene));
    expect([answer.status, answer.code]).toEqual([status, code]);
    expect(answer.headers["x-content-type-options"]).toBe("nosniff");
    expect(answer.headers["set-cookie"]).toBeUndefined();
    expect(await heads()).toEqual(before);
  });
});

describe("attacks that take several tries", () => {
  it("1,000 pairing tries from one address: ten are looked at, none gets in, and the real code still works", async () => {
    const to = await bootLan();
    const { code } = to.pairing.make("bench");
    const statuses: Record<number, number> = {};
    for (let batch = 0; batch < 20; batch += 1)
      for (const { status } of await Promise.all(
        Array.from({ length: 50 }, (_, i) =>
          ask(to, {
            door: "secure",
            path: "/pair",
            ...form({ code: `WRONG${String(batch * 50 + i).padStart(5, "0")}`, name: "x" }),
          }),
        ),
      ))
        statuses[status] = (statuses[status] ?? 0) + 1;
    expect(statuses).toEqual({ 401: 10, 429: 990 });
    expect(await to.list.devices()).toEqual([]);
    expect(to.pairing.redeem(code)).toBe("bench");
  });

  it("wrong codes from many addresses are stopped together, and only for a minute", () => {
    let now = 0;
    return bootLan({ now: () => now }).then(({ pairing }) => {
      now = 1_000_000;
      const { code } = pairing.make("viewer");
      for (let i = 0; i < 30; i += 1) expect(() => pairing.redeem("WRONG00000")).toThrow(/new and unused/);
      expect(() => pairing.redeem(code)).toThrow(/too many/);
      now += 61_000;
      expect(pairing.redeem(code)).toBe("viewer");
    });
  });

  it("an old pairing code", async () => {
    let now = 5_000_000;
    const { pairing } = await bootLan({ now: () => now });
    const { code } = pairing.make("bench");
    now += 10 * 60_000;
    expect(() => pairing.redeem(code)).toThrow(/new and unused/);
  });

  it.each([
    "/api/builds/BUILD/clips",
    "/api/builds/BUILD/photos",
    "/api/blobs/aaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaaa",
  ])("a 10 GB body announced to %s is refused before it is read", async (path) => {
    const to = await bootLan();
    const cookie = await pair(to, "bench");
    const put = path.includes("blobs");
    const answer = await new Promise<Answer["status"]>((resolve, reject) => {
      const request = httpsRequest({
        host: "127.0.0.1",
        port: to.securePort,
        ca: to.ca,
        servername: NAME,
        agent: false,
        method: put ? "PUT" : "POST",
        path: path.replace("BUILD", to.build),
        headers: {
          host: `${NAME}:${to.securePort}`,
          cookie,
          "content-type": put ? "application/octet-stream" : "multipart/form-data; boundary=x",
          "content-length": 10 * 1024 ** 3,
        },
      });
      request.on("response", (response) => {
        resolve(response.statusCode ?? 0);
        expect(response.headers.connection).toBe("close");
        request.destroy();
      });
      request.on("error", reject);
      request.write("some of it");
    });
    expect(answer).toBe(413);
  });

  it("uploads by the hundred from one address meet a limit", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "bench");
    const counts: Record<number, number> = {};
    for (let i = 0; i < 13; i += 1)
      for (const { status } of await Promise.all(
        Array.from({ length: 50 }, () =>
          ask(to, {
            door: "secure",
            path: "/api/hear",
            method: "POST",
            headers: { cookie, "content-type": "multipart/form-data; boundary=x" },
            body: "--x--\r\n",
          }),
        ),
      ))
        counts[status] = (counts[status] ?? 0) + 1;
    expect(counts).toEqual({ 422: 600, 429: 50 });
  });
});

describe("a path in an upload's name", () => {
  let to: TestLan;
  beforeAll(async () => {
    to = await bootLan();
    const cookie = await pair(to, "bench");
    const photo = await sharp({ create: { width: 40, height: 30, channels: 3, background: "#345" } })
      .jpeg()
      .toBuffer();
    const body = multipart([{ name: "photo", filename: "../../../../tmp/thoubook-owned.jpg", type: "text/html", value: photo }]);
    const answer = await ask(to, {
      door: "secure",
      path: `/api/builds/${to.build}/photos`,
      method: "POST",
      body: body.payload,
      headers: { ...body.headers, cookie },
    });
    expect(answer.status).toBe(200);
    const sha256 =
      (JSON.parse(answer.text) as { events: { event: { data: { photo: { sha256: string } } } }[] }).events[0]?.event.data.photo
        .sha256 ?? "";
    // The name is not in the log, and the picture is served as what it is.
    expect(answer.text).not.toContain("owned");
    const shown = await ask(to, { door: "secure", path: `/api/photos/${sha256}/thumb`, headers: { cookie } });
    expect([shown.status, shown.headers["content-type"], shown.headers["x-content-type-options"]]).toEqual([
      200,
      "image/webp",
      "nosniff",
    ]);
  });

  it("makes no file of that name", async () => {
    const { existsSync } = await import("node:fs");
    expect(existsSync("/tmp/thoubook-owned.jpg")).toBe(false);
  });
});
