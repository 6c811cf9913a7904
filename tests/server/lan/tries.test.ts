// Attacks that take several tries or a long breath: guessing codes, announcing huge bodies, flooding uploads, names with paths.
import { existsSync } from "node:fs";
import { Agent, request as httpsRequest } from "node:https";
import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { atEnd, multipart } from "../helper.ts";
import { type Answer, ask, bootLan, form, NAME, pair, type TestLan } from "./lan-helper.ts";

/** A thousand handshakes would measure the machine, not the limit: attackers keep their connections too. */
function keptConnections(): Agent {
  const agent = new Agent({ keepAlive: true, maxSockets: 20 });
  atEnd(async () => agent.destroy());
  return agent;
}
const PATIENCE = 120_000;
/** How many windows of a minute a test that began then can have touched. */
const minutesSince = (started: number) => 1 + Math.floor((Date.now() - started) / 60_000);

describe("attacks that take several tries", () => {
  it(
    "1,000 pairing tries from one address: ten are looked at, none gets in, and the real code still works",
    async () => {
      const to = await bootLan();
      const { code } = to.pairing.make("bench");
      const agent = keptConnections();
      const started = Date.now();
      const statuses: Record<number, number> = {};
      for (let batch = 0; batch < 20; batch += 1)
        for (const { status } of await Promise.all(
          Array.from({ length: 50 }, (_, i) =>
            ask(to, {
              door: "secure",
              agent,
              path: "/pair",
              ...form({ code: `WRONG${String(batch * 50 + i).padStart(5, "0")}`, name: "x" }),
            }),
          ),
        ))
          statuses[status] = (statuses[status] ?? 0) + 1;
      expect(statuses).toEqual({ 401: statuses[401], 429: 1000 - (statuses[401] ?? 0) });
      // Ten a minute: a slow machine may need more than one.
      expect(statuses[401]).toBeLessThanOrEqual(10 * minutesSince(started));
      expect(await to.list.devices()).toEqual([]);
      expect(to.pairing.redeem(code)).toBe("bench");
    },
    PATIENCE,
  );

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

  it(
    "uploads by the hundred from one address meet a limit",
    async () => {
      const to = await bootLan();
      const cookie = await pair(to, "bench");
      const agent = keptConnections();
      const started = Date.now();
      const counts: Record<number, number> = {};
      for (let i = 0; i < 13; i += 1)
        for (const { status } of await Promise.all(
          Array.from({ length: 50 }, () =>
            ask(to, {
              door: "secure",
              agent,
              path: "/api/hear",
              method: "POST",
              headers: { cookie, "content-type": "multipart/form-data; boundary=x" },
              body: "--x--\r\n",
            }),
          ),
        ))
          counts[status] = (counts[status] ?? 0) + 1;
      expect(counts).toEqual({ 422: counts[422], 429: 650 - (counts[422] ?? 0) });
      expect(counts[422]).toBeLessThanOrEqual(600 * minutesSince(started));
    },
    PATIENCE,
  );
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
    expect(existsSync("/tmp/thoubook-owned.jpg")).toBe(false);
  });
});
