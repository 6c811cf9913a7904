// The shop's authority and its server certificates, judged by TLS stacks that are not ours: Node's OpenSSL and the openssl program.
import { execFileSync } from "node:child_process";
import { readFile, stat, writeFile } from "node:fs/promises";
import { createServer } from "node:https";
import type { AddressInfo } from "node:net";
import { join } from "node:path";
import { connect } from "node:tls";
import { describe, expect, it } from "vitest";
import { openAuthority } from "../../../server/lan/authority.ts";
import { issueLeaf, openLeaf } from "../../../server/lan/leaf.ts";
import { isDnsName, machineNames, namesHost } from "../../../server/lan/names.ts";
import { atEnd, tempDir } from "../helper.ts";

const DNS = ["thoubook.local", "shop-pc.local", "localhost"];
const limited = { dns: DNS, nameConstraints: true };

/** What a TLS client with the authority trusted says of a server that shows this certificate and is called `name`. */
async function judge(ca: string, leaf: { certificatePem: string; keyPem: string }, name: string): Promise<string> {
  const server = createServer({ key: leaf.keyPem, cert: leaf.certificatePem });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  atEnd(async () => server.close());
  return await new Promise((resolve) => {
    const isIp = /^[\d.]+$|:/.test(name);
    const socket = connect(
      { host: "127.0.0.1", port: (server.address() as AddressInfo).port, ca, ...(isIp ? {} : { servername: name }) },
      () => {
        socket.end();
        resolve("accepted");
      },
    );
    socket.on("error", (error: NodeJS.ErrnoException) => {
      socket.destroy();
      resolve(error.code === "UNSPECIFIED" ? error.message : String(error.code));
    });
  });
}

describe("the authority", () => {
  it("is made once with its key for the owner alone, and kept", async () => {
    const dir = join(await tempDir(), "lan");
    const first = await openAuthority(dir, limited);
    expect((await stat(join(dir, "authority.key.pem"))).mode & 0o777).toBe(0o600);
    expect((await stat(dir)).mode & 0o777).toBe(0o700);
    const again = await openAuthority(dir, { dns: ["other.local"], nameConstraints: true });
    expect(again.fingerprint).toBe(first.fingerprint);
    expect(again.dns).toEqual(DNS);
    const shown = execFileSync("openssl", ["x509", "-in", join(dir, "authority.pem"), "-noout", "-fingerprint", "-sha256"], {
      encoding: "utf8",
    });
    expect(shown.trim().split("=")[1]?.replaceAll(":", " ")).toBe(first.fingerprint);
  });

  it("says its limits as critical, as openssl reads them", async () => {
    const dir = join(await tempDir(), "lan");
    await openAuthority(dir, limited);
    const text = execFileSync("openssl", ["x509", "-in", join(dir, "authority.pem"), "-noout", "-text"], { encoding: "utf8" });
    expect(text).toMatch(
      /Name Constraints: critical\s+Permitted:\s+DNS:thoubook.local\s+DNS:shop-pc.local\s+DNS:localhost\s+IP:127.0.0.0\/255.0.0.0\s+IP:10.0.0.0\/255.0.0.0/,
    );
    expect(text).toMatch(/Basic Constraints: critical\s+CA:TRUE, pathlen:0/);
    expect(text).toMatch(/Key Usage: critical\s+Certificate Sign, CRL Sign/);
  });

  it.each([
    ["thoubook.local", ["thoubook.local"], [], "accepted"],
    ["shop-pc.local", ["shop-pc.local"], [], "accepted"],
    ["127.0.0.1", [], ["127.0.0.1"], "accepted"],
    ["bank.example", ["bank.example"], [], "permitted subtree violation"],
    ["printer.local", ["printer.local"], [], "permitted subtree violation"],
    ["thoubook.local", ["thoubook.local", "bank.example"], [], "permitted subtree violation"],
    ["thoubook.local", ["thoubook.local"], ["8.8.8.8"], "permitted subtree violation"],
    ["thoubook.local", ["thoubook.local"], ["2001:db8::1"], "permitted subtree violation"],
    ["other.local", ["thoubook.local"], [], "ERR_TLS_CERT_ALTNAME_INVALID"],
  ])(
    "stolen, cannot vouch for what is not the shop's: called %s with names %j and addresses %j",
    async (name, dns, ips, verdict) => {
      const authority = await openAuthority(join(await tempDir(), "lan"), limited);
      const leaf = await issueLeaf(authority, dns, ips);
      expect(await judge(authority.certificate.toString("pem"), leaf, name)).toBe(verdict);
    },
  );

  it("made without limits accepts the same names: so it is the limits that refuse", async () => {
    const authority = await openAuthority(join(await tempDir(), "lan"), { dns: DNS, nameConstraints: false });
    expect(authority.dns).toBeUndefined();
    const leaf = await issueLeaf(authority, ["bank.example"], []);
    expect(await judge(authority.certificate.toString("pem"), leaf, "bank.example")).toBe("accepted");
  });

  it("cannot make a second authority below itself", async () => {
    const dir = join(await tempDir(), "lan");
    const authority = await openAuthority(dir, limited);
    const { certificatePem } = await issueLeaf(authority, ["thoubook.local"], []);
    const path = join(dir, "leaf.pem");
    await writeFile(path, certificatePem);
    const text = execFileSync("openssl", ["x509", "-in", path, "-noout", "-text"], { encoding: "utf8" });
    expect(text).toMatch(/Basic Constraints: critical\s+CA:FALSE/);
    expect(text).toContain("TLS Web Server Authentication");
  });
});

describe("the server's certificate", () => {
  const at = (address: string) => ({
    eth0: [{ address, internal: false, family: address.includes(":") ? "IPv6" : "IPv4" } as never],
  });
  const names = (address: string) => machineNames("thoubook.local", at(address), "Shop-PC");

  it("is kept while names and addresses stay, and made anew by the same authority when the address changes", async () => {
    const dir = join(await tempDir(), "lan");
    const authority = await openAuthority(dir, limited);
    const first = await openLeaf(dir, authority, names("192.168.1.20"));
    expect(first.renewed).toBe(true);
    expect((await stat(join(dir, "server.key.pem"))).mode & 0o777).toBe(0o600);
    const kept = await openLeaf(dir, authority, names("192.168.1.20"));
    expect([kept.renewed, kept.certificatePem]).toEqual([false, first.certificatePem]);
    const before = await readFile(join(dir, "authority.pem"), "utf8");
    const moved = await openLeaf(dir, authority, names("10.0.0.7"));
    expect(moved.renewed).toBe(true);
    expect(moved.names.ips).toContain("10.0.0.7");
    expect(await readFile(join(dir, "authority.pem"), "utf8")).toBe(before);
    expect(await judge(before, moved, "thoubook.local")).toBe("accepted");
  });

  it("is made anew a month before it ends, and lasts no longer than phones accept", async () => {
    const dir = join(await tempDir(), "lan");
    const authority = await openAuthority(dir, limited);
    const day = 86_400_000;
    const first = await openLeaf(dir, authority, names("192.168.1.20"));
    expect((await openLeaf(dir, authority, names("192.168.1.20"), Date.now() + 360 * day)).renewed).toBe(false);
    expect((await openLeaf(dir, authority, names("192.168.1.20"), Date.now() + 367 * day)).renewed).toBe(true);
    await writeFile(join(dir, "leaf.pem"), first.certificatePem);
    const dates = execFileSync("openssl", ["x509", "-in", join(dir, "leaf.pem"), "-noout", "-dates"], { encoding: "utf8" });
    const [from, to] = [...dates.matchAll(/=(.+)/g)].map((match) => Date.parse(match[1] ?? ""));
    expect(((to ?? 0) - (from ?? 0)) / day).toBeLessThanOrEqual(398);
  });

  it("leaves out an address that the authority may not vouch for", async () => {
    const dir = join(await tempDir(), "lan");
    const leaf = await openLeaf(dir, await openAuthority(dir, limited), names("203.0.113.9"));
    expect(leaf.names.ips).toEqual(["127.0.0.1", "::1"]);
  });
});

describe("names", () => {
  it("are the name that stays, the machine's own and its addresses", () => {
    const link = { address: "fe80::1", internal: false, family: "IPv6" };
    const found = machineNames(
      "thoubook.local",
      { eth0: [{ address: "192.168.1.20", internal: false, family: "IPv4" }, link] as never },
      "Shop-PC.fritz.box",
    );
    expect(found.dns).toEqual(["thoubook.local", "shop-pc.local", "localhost"]);
    expect(found.ips).toEqual(["127.0.0.1", "::1", "192.168.1.20"]);
    for (const host of ["thoubook.local", "192.168.1.20", "[::1]"]) expect(namesHost(found, host)).toBe(true);
    for (const host of ["evil.example", "192.168.1.21", "::1", "thoubook.local.evil.example", ""])
      expect(namesHost(found, host)).toBe(false);
  });

  it.each([
    ["thoubook.local", true],
    ["a.b-c.internal", true],
    ["local", false],
    ["*.local", false],
    ["a..b", false],
    ["-a.local", false],
    ["a.local/x", false],
    ["", false],
  ])("%j is a name: %s", (text, is) => {
    expect(isDnsName(text)).toBe(is);
  });
});
