import { readFile } from "node:fs/promises";
import { request as httpsRequest } from "node:https";
import { join } from "node:path";
import jsQR from "jsqr";
import sharp from "sharp";
import { describe, expect, it } from "vitest";
import { ask, bootLan, form, json, NAME, pair, type TestLan } from "./lan-helper.ts";

const words = json({ text: "bore 2 3.8750" });
const post = (to: TestLan, cookie: string) =>
  ask(to, { door: "secure", path: `/api/builds/${to.build}/utterances`, ...words, headers: { ...words.headers, cookie } });

describe("pairing", () => {
  it("gives a pass that scripts cannot read, other sites cannot send, and plain http cannot carry", async () => {
    const to = await bootLan();
    const { code } = await to.pairing.make("bench");
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
    const me = await ask(to, { door: "secure", path: "/api/me", headers: { cookie } });
    expect(JSON.parse(me.text)).toMatchObject({ role: "bench", name: "Phone <at> the vise" });
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

  it("is there for the owner's role alone", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "bench");
    expect((await ask(to, { door: "secure", path: "/door", headers: { cookie } })).code).toBe("forbidden_role");
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
