// The shop opened to its network, used as it is meant: pairing, roles, plain pages, customer links, cutting off, moving house.
import { X509Certificate } from "node:crypto";
import { readFile } from "node:fs/promises";
import { request as httpsRequest } from "node:https";
import { join } from "node:path";
import { Writable } from "node:stream";
import { connect } from "node:tls";
import jsQR from "jsqr";
import { pino } from "pino";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { openAuthority } from "../../../server/lan/authority.ts";
import { DEVICE_STEPS } from "../../../server/lan/explain-page.ts";
import { machineNames } from "../../../server/lan/names.ts";
import { startLan } from "../../../server/lan/start-lan.ts";
import { clipForm, makeWav, multipart } from "../helper.ts";
import { ask, bootLan, form, json, NAME, pair, type TestLan } from "./lan-helper.ts";

const words = json({ text: "bore 2 3.8750" });
const post = (to: TestLan, cookie: string) =>
  ask(to, { door: "secure", path: `/api/builds/${to.build}/utterances`, ...words, headers: { ...words.headers, cookie } });

describe("pairing", () => {
  it("gives a pass that scripts cannot read, other sites cannot send, and plain http cannot carry", async () => {
    const to = await bootLan();
    const { code } = to.pairing.make("bench");
    const page = await ask(to, { door: "secure", path: `/pair?code=${code}` });
    expect(page.text).toContain(`value="${code}"`);
    const typed = ` ${code.slice(0, 5).toLowerCase()}-${code.slice(5)} `.replace("0", "o");
    const answer = await ask(to, { door: "secure", path: "/pair", ...form({ code: typed, name: "Phone <at> the vise" }) });
    expect([answer.status, answer.headers.location]).toEqual([303, "/"]);
    expect(answer.headers["set-cookie"]?.[0]).toMatch(
      /^__Host-thoubook=[A-Za-z0-9_-]{43}; Max-Age=34560000; Path=\/; HttpOnly; Secure; SameSite=Strict$/,
    );
    const cookie = answer.headers["set-cookie"]?.[0]?.split(";")[0] ?? "";
    const written = await post(to, cookie);
    expect(written.status).toBe(200);
    const [device] = await to.list.devices();
    expect(JSON.parse(written.text).events[0].event).toMatchObject({ device: device?.id, by: "Phone <at> the vise" });
    // The token itself is nowhere on the disk.
    const database = await readFile(join(to.shop.data.dir, "thoubook.db"), "latin1");
    const journal = await readFile(join(to.shop.data.dir, "thoubook.db-wal"), "latin1");
    expect(database + journal).not.toContain(cookie.split("=")[1]);
  });

  it("shows a page for the code to whoever comes without a pass, and refuses programs by code", async () => {
    const to = await bootLan();
    const page = await ask(to, { door: "secure", path: "/builds/x", headers: { accept: "text/html" } });
    expect([page.status, page.headers.location]).toEqual([303, "/pair"]);
    expect((await ask(to, { door: "secure", path: "/api/builds" })).code).toBe("not_paired");
  });

  it("makes no owner over plain http", async () => {
    const to = await bootLan();
    await pair(to, "owner", "plain");
    expect((await to.list.devices()).map(({ role, door }) => [role, door])).toEqual([["bench", "plain"]]);
  });
});

describe("the owner's page", () => {
  it("makes codes with pictures that a camera reads, lists, renames and cuts off at once", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "owner", "secure", "Owner phone");
    const page = await ask(to, {
      door: "secure",
      path: "/door/codes",
      ...form({ role: "viewer" }),
      headers: { ...form({}).headers, cookie },
    });
    const [explain, pairing] = await Promise.all(
      [...page.text.matchAll(/<svg[\s\S]*?<\/svg>/g)].map((match) => readQr(match[0])),
    );
    expect(explain).toBe(`http://${NAME}:${to.plainPort}/`);
    const url = new URL(pairing ?? "");
    expect(url.origin + url.pathname).toBe(`https://${NAME}:${to.securePort}/pair`);
    const viewer = await ask(to, {
      door: "secure",
      path: "/pair",
      ...form({ code: url.searchParams.get("code") ?? "", name: "Tablet" }),
    });
    const pass = viewer.headers["set-cookie"]?.[0]?.split(";")[0] ?? "";
    expect((await ask(to, { door: "secure", path: "/api/builds", headers: { cookie: pass } })).status).toBe(200);
    const tablet = (await to.list.devices()).find((device) => device.name === "Tablet");
    const act = (what: string, fields = {}) =>
      ask(to, {
        door: "secure",
        path: `/door/devices/${tablet?.id}/${what}`,
        ...form(fields),
        headers: { ...form({}).headers, cookie },
      });
    expect((await act("name", { name: "Tablet <b>" })).status).toBe(303);
    expect((await ask(to, { door: "secure", path: "/door", headers: { cookie } })).text).toContain("Tablet &lt;b&gt;");
    expect((await act("cut-off")).status).toBe(303);
    expect((await ask(to, { door: "secure", path: "/api/builds", headers: { cookie: pass } })).code).toBe("not_paired");
    expect((await act("cut-off")).code).toBe("unknown_device");
  });

  it("ends what a device is watching when it is cut off", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "viewer");
    const [device] = await to.list.devices();
    const ended = new Promise<string>((resolve, reject) => {
      const path = `/api/builds/${to.build}/live`;
      const request = httpsRequest({
        host: "127.0.0.1",
        port: to.securePort,
        ca: to.ca,
        servername: NAME,
        agent: false,
        path,
        headers: { host: NAME, cookie },
      });
      request.on("error", reject).on("response", (response) => {
        let text = "";
        response.on("data", (chunk) => {
          text += chunk;
          if (text.includes("retry")) void to.list.cutOff(device?.id ?? "");
        });
        response.on("end", () => resolve(text));
      });
      request.end();
    });
    expect(await ended).toContain("retry: 2000");
  });

  it("is there on the machine itself without pairing", async () => {
    const to = await bootLan();
    // The machine's own listener is built by the process; here its access is what decides.
    expect(await to.shop.deps.access.identify({} as never)).toMatchObject({ role: "owner" });
  });
});

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
      ...form({ build: to.build, days: "7" }),
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
});

describe("moving to another address", () => {
  it("makes the certificate anew while serving, by the same authority, and answers to the new address only", async () => {
    const to = await bootLan();
    const names = () =>
      new Promise<string>((resolve, reject) => {
        const socket = connect({ host: "127.0.0.1", port: to.securePort, ca: to.ca, servername: NAME }, () => {
          resolve(socket.getPeerX509Certificate()?.subjectAltName ?? "");
          socket.end();
        }).on("error", reject);
      });
    expect(await names()).toContain("IP Address:192.168.7.20");
    expect(await to.lan.check()).toBe(false);
    to.moveTo("10.1.2.3");
    expect(await to.lan.check()).toBe(true);
    const after = await names();
    expect(after).toContain("IP Address:10.1.2.3");
    expect(after).not.toContain("192.168.7.20");
    expect(to.lan.urls().secureByAddress).toBe(`https://10.1.2.3:${to.securePort}/`);
    expect((await ask(to, { door: "secure", path: "/api/health", host: "10.1.2.3" })).status).toBe(200);
    expect((await ask(to, { door: "secure", path: "/api/health", host: "192.168.7.20" })).code).toBe("forbidden_host");
    expect((await openAuthority(to.dir, { dns: [], nameConstraints: true })).fingerprint).toBe(to.lan.authority.fingerprint);
  });

  it("refuses a name that the kept authority may not vouch for, in one sentence", async () => {
    const to = await bootLan();
    const { deps } = to.shop;
    const other = {
      deps,
      list: to.list,
      pairing: to.pairing,
      dir: to.dir,
      host: "127.0.0.1",
      securePort: 0,
      plainPort: 0,
      nameConstraints: true,
      announce: false,
    };
    await expect(startLan({ ...other, names: () => machineNames("bench.local", {}, "Shop-PC") })).rejects.toThrow(
      /Expected a name this shop's authority may vouch for \(thoubook.local, shop-pc.local, localhost\)/,
    );
  });
});

describe("the log of an open shop", () => {
  it("holds no code, pass, link or word", async () => {
    const lines: string[] = [];
    const sink = new Writable({
      write: (chunk, _encoding, done) => {
        lines.push(String(chunk));
        done();
      },
    });
    const to = await bootLan({ logger: pino({ level: "info" }, sink) });
    const { code } = to.pairing.make("bench");
    await ask(to, { door: "secure", path: `/pair?code=${code}` });
    const paired = await ask(to, { door: "secure", path: "/pair", ...form({ code, name: "Phone" }) });
    const cookie = paired.headers["set-cookie"]?.[0]?.split(";")[0] ?? "";
    await post(to, cookie);
    const clip = clipForm(makeWav());
    await ask(to, {
      door: "secure",
      path: `/api/builds/${to.build}/clips`,
      method: "POST",
      body: clip.payload,
      headers: { ...clip.headers, cookie },
    });
    const { token } = await to.list.makeLink(to.build, 1);
    await ask(to, { door: "secure", path: `/record/${token}` });
    await ask(to, { door: "secure", path: "/pair", ...form({ code: "WRONGCODE1", name: "Phone" }) });
    const log = lines.join("");
    expect(log).toContain('"route":"/record/:token"');
    expect(log).toContain("device paired");
    for (const secret of [code, cookie.split("=")[1] ?? "", token, "WRONGCODE1", "3.87"]) expect(log).not.toContain(secret);
  });
});

/** What a camera reads off a picture: another library's reader on the rendered SVG. */
async function readQr(svg: string): Promise<string | undefined> {
  const { data, info } = await sharp(Buffer.from(svg), { density: 300 })
    .resize(600)
    .ensureAlpha()
    .raw()
    .toBuffer({ resolveWithObject: true });
  return jsQR(new Uint8ClampedArray(data), info.width, info.height)?.data;
}
