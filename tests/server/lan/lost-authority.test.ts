// The authority's files lost, emptied or mixed up: what devices trust is never replaced behind their back, and a start that
// would fail each handshake says so instead. Judged by openssl where a certificate's use is meant.
import "reflect-metadata";
import { execFileSync } from "node:child_process";
import { readdir, readFile, rm, writeFile } from "node:fs/promises";
import { join } from "node:path";
import * as x509 from "@peculiar/x509";
import { describe, expect, it } from "vitest";
import { openAuthority } from "../../../server/lan/authority.ts";
import { openLeaf } from "../../../server/lan/leaf.ts";
import { machineNames } from "../../../server/lan/names.ts";
import { startLan } from "../../../server/lan/start-lan.ts";
import { atEnd, tempDir } from "../helper.ts";
import { ask, bootLan, NAME, pair, type TestLan } from "./lan-helper.ts";

const limited = { dns: [NAME], nameConstraints: true };
const names = () => machineNames(NAME, {}, "Shop-PC");

/** Start the doors of a shop once more, on what is in its folder. */
async function again(to: TestLan, more: { newAuthority?: boolean } = {}) {
  const { shop, list, pairing, dir } = to;
  const parts = { deps: shop.deps, list, pairing, dir, host: "127.0.0.1", securePort: 0, plainPort: 0 };
  const lan = await startLan({ ...parts, nameConstraints: true, announce: false, names, ...more });
  atEnd(() => lan.close());
  return lan;
}

/** A shop whose phone trusts its authority. */
async function trustedShop(): Promise<TestLan> {
  const to = await bootLan();
  await pair(to, "bench");
  return to;
}

const FAULTS: readonly [what: string, spoil: (dir: string) => Promise<unknown>, said: RegExp][] = [
  ["the whole folder gone", (dir) => rm(dir, { recursive: true }), /authority in .+, got none, though devices trust one/],
  ["the certificate gone", (dir) => rm(join(dir, "authority.pem")), /got none, though devices trust one/],
  ["the key gone", (dir) => rm(join(dir, "authority.key.pem")), /got none, though devices trust one/],
  [
    "an empty certificate",
    (dir) => writeFile(join(dir, "authority.pem"), ""),
    /a certificate in authority.pem .+, got an empty file/,
  ],
  [
    "an empty key",
    (dir) => writeFile(join(dir, "authority.key.pem"), ""),
    /a private key in authority.key.pem .+, got an empty file/,
  ],
  ["text for a certificate", (dir) => writeFile(join(dir, "authority.pem"), "hello"), /authority.pem .+, got something else/],
  ["text for a key", (dir) => writeFile(join(dir, "authority.key.pem"), "hello"), /authority.key.pem .+, got something else/],
  [
    "another authority's key",
    async (dir) => {
      const other = join(await tempDir(), "lan");
      await openAuthority(other, limited);
      await writeFile(join(dir, "authority.key.pem"), await readFile(join(other, "authority.key.pem")));
    },
    /the key of authority.pem .+, got another certificate's key/,
  ],
  [
    "the server's certificate and key in the authority's place",
    async (dir) => {
      await writeFile(join(dir, "authority.pem"), await readFile(join(dir, "server.pem")));
      await writeFile(join(dir, "authority.key.pem"), await readFile(join(dir, "server.key.pem")));
    },
    /an authority's certificate .+, got another kind of certificate/,
  ],
];

describe("an authority that devices trust", () => {
  it.each(FAULTS)("is not replaced, and the start refused in one sentence, with %s", async (_what, spoil, said) => {
    const to = await trustedShop();
    await spoil(to.dir);
    const left = await readdir(to.dir).catch(() => []);
    const refusal = await again(to).then(
      () => "started",
      (error: Error) => `${error.name}: ${error.message}`,
    );
    expect(refusal).toMatch(said);
    expect(refusal).toMatch(/^PlainError: Expected .+ put that folder back from a backup, or start once with --new-authority/);
    expect(refusal).not.toContain("\n");
    expect(await readdir(to.dir).catch(() => [])).toEqual(left);
  });

  it("that has ended is told with its last day", async () => {
    const to = await trustedShop();
    const { notAfter } = to.lan.authority.certificate;
    const real = Date.now;
    Date.now = () => notAfter.getTime() + 1000;
    try {
      await expect(again(to)).rejects.toThrow(`got one that ended on ${notAfter.toISOString().slice(0, 10)}`);
    } finally {
      Date.now = real;
    }
  });

  it("is made anew when asked to, and the old one is kept beside it", async () => {
    const to = await trustedShop();
    const old = to.lan.authority.fingerprint;
    const lan = await again(to, { newAuthority: true });
    expect(lan.authority.fingerprint).not.toBe(old);
    const kept = (await readdir(to.shop.data.dir)).filter((name) => name.startsWith("lan-before-"));
    expect(kept).toHaveLength(1);
    const before = await openAuthority(join(to.shop.data.dir, kept[0] ?? ""), { ...limited, trusted: true });
    expect(before.fingerprint).toBe(old);
  });
});

describe("an authority that no device trusts yet", () => {
  it("is made, also where an earlier start was cut short after its key", async () => {
    const dir = join(await tempDir(), "lan");
    await openAuthority(dir, limited);
    await rm(join(dir, "authority.pem"));
    expect((await openAuthority(dir, limited)).dns).toEqual([NAME]);
  });

  it("is for servers alone: openssl takes what it signs for a server and for nothing else", async () => {
    const dir = join(await tempDir(), "lan");
    const authority = await openAuthority(dir, limited);
    const text = execFileSync("openssl", ["x509", "-in", join(dir, "authority.pem"), "-noout", "-text"], { encoding: "utf8" });
    expect(text).toMatch(/Extended Key Usage:\s+TLS Web Server Authentication\n/);
    const leaf = await openLeaf(dir, authority, names());
    await writeFile(join(dir, "leaf.pem"), leaf.certificatePem);
    const mail = await forged(authority.key, authority.certificate);
    await writeFile(join(dir, "mail.pem"), mail);
    const verdict = (purpose: string, file: string) => {
      try {
        return execFileSync("openssl", ["verify", "-CAfile", join(dir, "authority.pem"), "-purpose", purpose, join(dir, file)], {
          encoding: "utf8",
          stdio: "pipe",
        })
          .trim()
          .slice(-2);
      } catch {
        return "refused";
      }
    };
    expect([verdict("sslserver", "leaf.pem"), verdict("sslclient", "mail.pem"), verdict("smimesign", "mail.pem")]).toEqual([
      "OK",
      "refused",
      "refused",
    ]);
  });
});

/** What a thief of the key would sign: a certificate for mail and for a person at a login. */
async function forged(key: CryptoKey, issuer: x509.X509Certificate): Promise<string> {
  const keys = await crypto.subtle.generateKey({ name: "ECDSA", namedCurve: "P-256" }, true, ["sign", "verify"]);
  const certificate = await x509.X509CertificateGenerator.create({
    subject: "CN=somebody",
    issuer: issuer.subject,
    notBefore: new Date(Date.now() - 1000),
    notAfter: new Date(Date.now() + 86_400_000),
    signingKey: key,
    publicKey: (keys as CryptoKeyPair).publicKey,
    signingAlgorithm: { name: "ECDSA", hash: "SHA-256" },
    extensions: [new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.clientAuth, x509.ExtendedKeyUsage.emailProtection])],
  });
  return certificate.toString("pem");
}

describe("the server's own certificate", () => {
  it.each(["", "hello", "another"])("is made anew by the same authority where its key is spoiled: %j", async (spoiled) => {
    const dir = join(await tempDir(), "lan");
    const authority = await openAuthority(dir, limited);
    const first = await openLeaf(dir, authority, names());
    const other = await openLeaf(join(await tempDir()), authority, names());
    await writeFile(join(dir, "server.key.pem"), spoiled === "another" ? other.keyPem : spoiled);
    const next = await openLeaf(dir, authority, names());
    expect([next.renewed, next.certificatePem === first.certificatePem]).toEqual([true, false]);
  });

  it("with an empty file beside a trusted authority does not keep the door shut", async () => {
    const to = await trustedShop();
    await writeFile(join(to.dir, "server.pem"), "");
    const lan = await again(to);
    const port = (lan.secure.server.address() as { port: number }).port;
    expect((await ask({ ...to, securePort: port }, { door: "secure", path: "/api/health" })).status).toBe(200);
  });
});
