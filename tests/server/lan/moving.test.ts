import { Writable } from "node:stream";
import { connect } from "node:tls";
import { pino } from "pino";
import { describe, expect, it } from "vitest";
import { openAuthority } from "../../../server/lan/authority.ts";
import { machineNames } from "../../../server/lan/names.ts";
import { startLan } from "../../../server/lan/start-lan.ts";
import { clipForm, makeWav } from "../helper.ts";
import { ask, bootLan, form, json, NAME, type TestLan } from "./lan-helper.ts";

const words = json({ text: "bore 2 3.8750" });
const post = (to: TestLan, cookie: string) =>
  ask(to, { door: "secure", path: `/api/builds/${to.build}/utterances`, ...words, headers: { ...words.headers, cookie } });

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
    const { code } = await to.pairing.make("bench");
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
    const { token } = await to.list.makeLink(to.build, 1, "plain");
    await ask(to, { door: "secure", path: `/record/${token}` });
    await ask(to, { door: "secure", path: "/pair", ...form({ code: "WRONGCODE1", name: "Phone" }) });
    const log = lines.join("");
    expect(log).toContain('"route":"/record/:token"');
    expect(log).toContain("device paired");
    for (const secret of [code, cookie.split("=")[1] ?? "", token, "WRONGCODE1", "3.87"]) expect(log).not.toContain(secret);
  });
});
