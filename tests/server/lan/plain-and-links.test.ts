// The plain listener and customer links, used as they are meant, over real sockets.
import { X509Certificate } from "node:crypto";
import { readFileSync } from "node:fs";
import { join } from "node:path";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { buildApp } from "../../../server/app.ts";
import { DoorList } from "../../../server/lan/door-list.ts";
import { doorPage } from "../../../server/lan/door-page.ts";
import { DEVICE_STEPS } from "../../../server/lan/explain-page.ts";
import { ownerRoutes } from "../../../server/lan/owner-routes.ts";
import { Pairing } from "../../../server/lan/pairing.ts";
import { atEnd, bootShop, multipart } from "../helper.ts";
import { ADDRESS, ask, bootLan, form, json, NAME, pair, type TestLan } from "./lan-helper.ts";

const words = json({ text: "bore 2 3.8750" });
const post = (to: TestLan, cookie: string) =>
  ask(to, { door: "secure", path: `/api/builds/${to.build}/utterances`, ...words, headers: { ...words.headers, cookie } });

describe("plain http", () => {
  it("explains itself with numbered steps, the fingerprint and the certificate that the secure door stands on", async () => {
    const to = await bootLan();
    const { text, headers } = await ask(to, { door: "plain", path: "/" });
    expect(headers["content-security-policy"]).not.toContain("upgrade-insecure-requests");
    expect(text).toContain(to.lan.authority.fingerprint);
    expect(text).toContain(`https://${NAME}:${to.securePort}/`);
    for (const id of ["ios", "android", "desktop"]) expect(text).toContain(`<h3 id="${id}">`);
    expect(text.match(/<ol>/g)).toHaveLength(DEVICE_STEPS.length);
    expect(text).toMatch(/Certificate Trust Settings/);
    expect(text).not.toMatch(/<script/);
    const certificate = await new Promise<{ type: string | undefined; der: Buffer }>((resolve) => {
      void import("node:http").then(({ get }) =>
        get({ host: "127.0.0.1", port: to.plainPort, path: "/shop-authority.crt", headers: { host: NAME } }, async (response) => {
          const chunks: Buffer[] = [];
          for await (const chunk of response) chunks.push(chunk as Buffer);
          resolve({ type: response.headers["content-type"], der: Buffer.concat(chunks) });
        }),
      );
    });
    expect(certificate.type).toBe("application/x-x509-ca-cert");
    expect(new X509Certificate(certificate.der).fingerprint256.replaceAll(":", " ")).toBe(to.lan.authority.fingerprint);
  });

  it("takes typed words and photos of a paired device and shows the timeline with verdicts", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "bench", "plain");
    const say = (text: string) =>
      ask(to, {
        door: "plain",
        path: `/book/${to.build}/say`,
        ...form({ text }),
        headers: { ...form({}).headers, cookie, origin: `http://${NAME}:${to.plainPort}` },
      });
    const said = await say("bore 2 3.8750");
    expect(said.status).toBe(200);
    expect(said.text).toContain("3.8750 in");
    expect((await say("<script>alert(1)</script>")).text).toContain("&lt;script&gt;alert(1)&lt;/script&gt;");
    const photo = await sharp({ create: { width: 40, height: 30, channels: 3, background: "#345" } })
      .jpeg()
      .toBuffer();
    const body = multipart([
      { name: "photo", filename: "a.jpg", value: photo },
      { name: "statement", value: "ridge at the top" },
    ]);
    const sent = await ask(to, {
      door: "plain",
      path: `/book/${to.build}/photos`,
      method: "POST",
      body: body.payload,
      headers: { ...body.headers, cookie },
    });
    expect([sent.status, sent.text.includes("ridge at the top")]).toEqual([200, true]);
    const shown = /src="(\/photos\/[0-9a-f]{64}\/thumb)"/.exec(sent.text)?.[1] ?? "";
    expect((await ask(to, { door: "plain", path: shown, headers: { cookie } })).headers["content-type"]).toBe("image/webp");
    expect((await ask(to, { door: "plain", path: "/book", headers: { cookie } })).text).toContain("1 readings, 1 photos");
    expect((await to.shop.app.inject(`/api/builds/${to.build}`)).json().counts).toMatchObject({ readings: 1, photos: 1 });
  });

  it("shows viewers the book without the forms", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "viewer", "plain");
    const { status, text } = await ask(to, { door: "plain", path: `/book/${to.build}`, headers: { cookie } });
    expect([status, text.includes("<form")]).toEqual([200, false]);
  });
});

describe("a customer link", () => {
  it("shows one build's record with its photos until it is revoked", async () => {
    const to = await bootLan();
    const bench = await pair(to, "bench");
    await post(to, bench);
    const photo = await sharp({ create: { width: 40, height: 30, channels: 3, background: "#345" } })
      .jpeg()
      .toBuffer();
    await to.shop.app.inject({
      method: "POST",
      url: `/api/builds/${to.build}/photos`,
      ...multipart([{ name: "photo", filename: "a.jpg", value: photo }]),
    });
    const owner = await pair(to, "owner");
    const made = await ask(to, {
      door: "secure",
      path: "/door/links",
      ...form({ build: to.build, days: "7", door: "secure" }),
      headers: { ...form({}).headers, cookie: owner },
    });
    const path = /https:\/\/thoubook\.local:\d+(\/record\/[A-Za-z0-9_-]{43})/.exec(made.text)?.[1] ?? "";
    const record = await ask(to, { door: "secure", path });
    expect([record.status, record.headers["referrer-policy"], record.headers["cache-control"]]).toEqual([
      200,
      "no-referrer",
      "no-store",
    ]);
    expect(record.text).toContain("3.8750 in");
    expect(record.text).not.toMatch(/<form|\/api\/|\/door/);
    const thumb = new RegExp(`${path}/photos/[0-9a-f]{64}/thumb`).exec(record.text)?.[0] ?? "";
    expect((await ask(to, { door: "secure", path: thumb })).headers["content-type"]).toBe("image/webp");
    const [link] = await to.list.links();
    await ask(to, {
      door: "secure",
      path: `/door/links/${link?.id}/revoke`,
      ...form({}),
      headers: { ...form({}).headers, cookie: owner },
    });
    for (const gone of [path, thumb]) expect((await ask(to, { door: "secure", path: gone })).code).toBe("unknown_link");
  });

  it("opens on any device of the shop's network when it is made for any: no certificate, no pass, by address and by name", async () => {
    const to = await bootLan();
    const owner = await pair(to, "owner");
    const made = await ask(to, {
      door: "secure",
      path: "/door/links",
      ...form({ build: to.build, days: "7", door: "plain" }),
      headers: { ...form({}).headers, cookie: owner },
    });
    const urls = [...made.text.matchAll(/https?:\/\/[^<"]+\/record\/[A-Za-z0-9_-]{43}/g)].map(([url]) => new URL(url));
    expect(urls.map(({ origin }) => origin)).toEqual([
      `http://${ADDRESS}:${to.plainPort}`,
      `http://${NAME}:${to.plainPort}`,
      `https://${NAME}:${to.securePort}`,
    ]);
    const answers = [];
    for (const { protocol, hostname, pathname } of urls)
      answers.push(await ask(to, { door: protocol === "http:" ? "plain" : "secure", host: hostname, path: pathname }));
    expect(answers.map(({ status, text }) => [status, text.includes("Mill engine")])).toEqual([
      [200, true],
      [200, true],
      [200, true],
    ]);
    // It opens this record and nothing else.
    expect((await ask(to, { door: "plain", path: "/book" })).code).toBe("not_paired");
  });

  it("is not offered where the shop is open on its own machine alone: it would lead nowhere", async () => {
    const { deps, data } = await bootShop();
    const { db } = data.store;
    const own = await buildApp(deps, { more: (app) => ownerRoutes(app, deps, new DoorList(db), new Pairing(db)) });
    atEnd(() => own.close());
    const page = await own.inject("/door");
    expect(page.body).toContain("thoubook serve --lan");
    expect(page.body).not.toContain("Make a link");
    expect((await own.inject({ method: "POST", url: "/door/links" })).statusCode).toBe(404);
  });
});

describe("the page that tells what can be seen, and by whom", () => {
  it("is shown to everybody at every door, and tells nothing of this shop in particular", async () => {
    const to = await bootLan();
    await pair(to, "bench", "secure", "Phone of somebody");
    for (const door of ["secure", "plain"] as const) {
      const { status, text } = await ask(to, { door, path: "/seen" });
      expect(status).toBe(200);
      expect(text).toContain("What can be seen, and by whom");
      expect(text).not.toMatch(/Mill engine|Phone of somebody|<script|style=/);
    }
    expect((await ask(to, { door: "plain", path: "/" })).text).toContain('href="/seen"');
  });
});

describe("the door's page", () => {
  it("tells how long the certificates hold and when they are made anew, as the certificates themselves say", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "owner");
    const { text } = await ask(to, { door: "secure", path: "/door", headers: { cookie } });
    const day = (file: string) => new X509Certificate(readFileSync(join(to.dir, file))).validTo;
    for (const file of ["authority.pem", "server.pem"])
      expect(text).toContain(`holds until <b>${new Date(day(file)).toISOString().slice(0, 10)}</b>`);
    const renewal = new Date(Date.parse(day("server.pem")) - 30 * 86_400_000).toISOString().slice(0, 10);
    expect(text).toContain(`made anew by itself from ${renewal} on`);
    expect(text).not.toContain("The authority ends in");
  });

  it("warns in the authority's last year", async () => {
    const to = await bootLan();
    const { until } = to.lan.urls().certificates.authority;
    const facts = { devices: [], links: [], builds: [], lan: to.lan.urls(), own: "" };
    expect(doorPage({ ...facts, now: Date.parse(until) - 100.5 * 86_400_000 })).toContain("The authority ends in 100 days");
  });
});
