// Attacks that take several tries or a long breath: guessing codes, announcing huge bodies, flooding uploads, names with paths.
import { existsSync } from "node:fs";
import { Agent, request as httpsRequest } from "node:https";
import sharp from "sharp";
import { beforeAll, describe, expect, it } from "vitest";
import { Pairing } from "../../../server/lan/pairing.ts";
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
      const { code } = await to.pairing.make("bench");
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
      expect(await to.pairing.redeem(code, "192.168.7.9")).toBe("bench");
    },
    PATIENCE,
  );

  it("wrong codes from one address stop that address, also after a restart, and only for a minute", async () => {
    let now = 1_000_000;
    const { pairing, shop } = await bootLan({ now: () => now });
    const { code } = await pairing.make("viewer");
    for (let i = 0; i < 10; i += 1) await expect(pairing.redeem("WRONG00000", "192.168.7.9")).rejects.toThrow(/new and unused/);
    await expect(pairing.redeem(code, "192.168.7.9")).rejects.toThrow(/too many/);
    const restarted = new Pairing(shop.data.store.db, () => now);
    await expect(restarted.redeem(code, "192.168.7.9")).rejects.toThrow(/too many/);
    now += 61_000;
    expect(await restarted.redeem(code, "192.168.7.9")).toBe("viewer");
    await expect(new Pairing(shop.data.store.db, () => now).redeem(code, "192.168.7.9")).rejects.toThrow(/new and unused/);
  });

  it("fifty tries at once from one address: ten are looked at", async () => {
    const { pairing } = await bootLan();
    const tried = Array.from({ length: 50 }, () =>
      pairing.redeem("WRONG00000", "192.168.7.9").catch((error: Error) => error.message),
    );
    expect((await Promise.all(tried)).filter((message) => /new and unused/.test(message))).toHaveLength(10);
  });

  it("two devices that give the same code at once: one gets it", async () => {
    const { pairing } = await bootLan();
    const { code } = await pairing.make("bench");
    const tried = ["192.168.7.8", "192.168.7.9"].map((address) => pairing.redeem(code, address).catch(() => "refused"));
    expect((await Promise.all(tried)).sort()).toEqual(["bench", "refused"]);
  });

  it("four addresses, or four thousand, lock nobody else out, and are not all remembered", async () => {
    const { pairing, shop } = await bootLan();
    const { code } = await pairing.make("bench");
    for (let i = 0; i < 4; i += 1)
      for (let n = 0; n < 12; n += 1) await pairing.redeem("WRONG00000", `192.168.7.${100 + i}`).catch(() => undefined);
    for (let i = 0; i < 4000; i += 1) await pairing.redeem("WRONG00000", `fd00::${i.toString(16)}`).catch(() => undefined);
    expect(await pairing.redeem(code, "192.168.7.9")).toBe("bench");
    const { n } = await shop.data.store.db
      .selectFrom("pairing_try")
      .select((row) => row.fn.countAll<number>().as("n"))
      .executeTakeFirstOrThrow();
    expect(n).toBeLessThanOrEqual(1001);
  });

  it("an old pairing code", async () => {
    let now = 5_000_000;
    const { pairing } = await bootLan({ now: () => now });
    const { code } = await pairing.make("bench");
    now += 10 * 60_000;
    await expect(pairing.redeem(code, "192.168.7.9")).rejects.toThrow(/new and unused/);
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
