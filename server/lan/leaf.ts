// The server's own certificate, signed by the shop's authority: for the names and addresses of now, made anew when they change.
import { createPrivateKey, webcrypto, X509Certificate } from "node:crypto";
import { chmod, readFile } from "node:fs/promises";
import { join } from "node:path";
import * as x509 from "@peculiar/x509";
import { writeWhole } from "../disk.ts";
import { type Authority, KEY_ALGORITHM, keyPem, PERMITTED_RANGES, serialNumber } from "./authority.ts";
import type { MachineNames } from "./names.ts";
import { inRanges } from "./ranges.ts";

const DAY_MS = 86_400_000;
/** Phones refuse a server certificate that lasts longer than 825 days; 397 keeps below every limit known. */
const DAYS = 397;
const RENEW_BEFORE_DAYS = 30;

export interface Leaf {
  readonly certificatePem: string;
  readonly keyPem: string;
  readonly names: MachineNames;
}

const paths = (dir: string) => ({ key: join(dir, "server.key.pem"), certificate: join(dir, "server.pem") });

/**
 * The certificate for `names`: the kept one where it still serves, else a new one from the same authority.
 * Addresses outside the ranges the authority may vouch for are left out.
 */
export async function openLeaf(
  dir: string,
  authority: Authority,
  names: MachineNames,
  now = Date.now(),
): Promise<Leaf & { renewed: boolean }> {
  const usable = vouchedNames(authority, names);
  const kept = await readKept(dir);
  if (kept !== undefined && serves(kept, authority, usable, now)) {
    await chmod(paths(dir).key, 0o600);
    return { ...kept, names: usable, renewed: false };
  }
  const made = await issueLeaf(authority, usable.dns, usable.ips, now);
  await writeWhole(paths(dir).key, made.keyPem, 0o600);
  await writeWhole(paths(dir).certificate, made.certificatePem, 0o600);
  return { ...made, names: usable, renewed: true };
}

/** Those names and addresses that the authority may vouch for. */
export function vouchedNames(authority: Authority, names: MachineNames): MachineNames {
  const { dns } = authority;
  if (dns === undefined) return names;
  return {
    canonical: names.canonical,
    dns: names.dns.filter((name) => dns.includes(name)),
    ips: names.ips.filter((ip) => inRanges(ip, PERMITTED_RANGES)),
  };
}

async function readKept(dir: string): Promise<Omit<Leaf, "names"> | undefined> {
  const files = paths(dir);
  try {
    return { certificatePem: await readFile(files.certificate, "utf8"), keyPem: await readFile(files.key, "utf8") };
  } catch {
    return undefined;
  }
}

/** Whether a kept certificate is this authority's and the key's, lasts long enough, and names exactly what is to be named. */
function serves(kept: Omit<Leaf, "names">, authority: Authority, names: MachineNames, now: number): boolean {
  const { certificatePem: pem } = kept;
  try {
    const certificate = new X509Certificate(pem);
    const issuer = new X509Certificate(authority.certificate.toString("pem"));
    if (!certificate.verify(issuer.publicKey) || !certificate.checkPrivateKey(createPrivateKey(kept.keyPem))) return false;
  } catch {
    // Empty or broken files: the authority makes this one anew, and no device notices.
    return false;
  }
  const { renews, until } = leafTimes(kept);
  // One that ends with its authority cannot last longer: another would be the same.
  if (Date.parse(renews) < now && Date.parse(until) < authority.certificate.notAfter.getTime()) return false;
  const said = new x509.X509Certificate(pem).getExtension(x509.SubjectAlternativeNameExtension)?.names.items ?? [];
  const wanted = [...names.dns, ...names.ips].sort();
  return JSON.stringify(said.map((name) => name.value).sort()) === JSON.stringify(wanted);
}

/** When a server certificate began, ends, and is made anew. */
export function leafTimes({ certificatePem }: { readonly certificatePem: string }) {
  const { validFrom, validTo } = new X509Certificate(certificatePem);
  const iso = (ms: number) => new Date(ms).toISOString();
  const until = Date.parse(validTo);
  return { from: iso(Date.parse(validFrom)), until: iso(until), renews: iso(until - RENEW_BEFORE_DAYS * DAY_MS) };
}

/** Sign a server certificate for any names given. What they may be is for the caller and for the authority's limits. */
export async function issueLeaf(
  authority: Authority,
  dns: readonly string[],
  ips: readonly string[],
  now = Date.now(),
): Promise<Omit<Leaf, "names">> {
  const keys = await webcrypto.subtle.generateKey(KEY_ALGORITHM, true, ["sign", "verify"]);
  const certificate = await x509.X509CertificateGenerator.create({
    serialNumber: serialNumber(),
    // Not a host name: TLS stacks hold a host name here to the limits too. Names stand in the extension below.
    subject: "CN=Thoubook shop server",
    issuer: authority.certificate.subject,
    notBefore: new Date(now - DAY_MS),
    // No longer than its authority.
    notAfter: new Date(Math.min(now - DAY_MS + DAYS * DAY_MS, authority.certificate.notAfter.getTime())),
    signingKey: authority.key,
    publicKey: keys.publicKey as CryptoKey,
    signingAlgorithm: KEY_ALGORITHM,
    extensions: [
      new x509.BasicConstraintsExtension(false, undefined, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.digitalSignature, true),
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      new x509.SubjectAlternativeNameExtension([
        ...dns.map((value) => ({ type: "dns" as const, value })),
        ...ips.map((value) => ({ type: "ip" as const, value })),
      ]),
      await x509.AuthorityKeyIdentifierExtension.create(authority.certificate.publicKey),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey as CryptoKey),
    ],
  });
  return { certificatePem: certificate.toString("pem"), keyPem: await keyPem(keys.privateKey) };
}
