// The shop's own certificate authority: made once, kept, and limited by its own certificate to the shop's names.
import "reflect-metadata";
import { createPrivateKey, webcrypto, X509Certificate } from "node:crypto";
import { existsSync } from "node:fs";
import { chmod, mkdir, readFile } from "node:fs/promises";
import { join } from "node:path";
import { AsnConvert } from "@peculiar/asn1-schema";
import { GeneralName, GeneralSubtree, GeneralSubtrees, id_ce_nameConstraints, NameConstraints } from "@peculiar/asn1-x509";
import * as x509 from "@peculiar/x509";
import { writeWhole } from "../disk.ts";
import { PlainError } from "../errors.ts";

x509.cryptoProvider.set(webcrypto as Crypto);

export const KEY_ALGORITHM = { name: "ECDSA", namedCurve: "P-256", hash: "SHA-256" } as const;
const YEAR_MS = 365 * 86_400_000;
const YEARS = 10;
/** The way out of an authority that is lost, for a refusal's end. */
const ANEW = "or start once with --new-authority, which every device has to trust anew";

/** Addresses that never leave a shop: loopback, private and link-local ranges (RFC 1918, 3927, 4193, 4291, 5735). */
export const PERMITTED_RANGES = [
  "127.0.0.0/8",
  "10.0.0.0/8",
  "172.16.0.0/12",
  "192.168.0.0/16",
  "169.254.0.0/16",
  "::1/128",
  "fc00::/7",
  "fe80::/10",
] as const;

export interface Authority {
  readonly certificate: x509.X509Certificate;
  readonly key: CryptoKey;
  /** DNS names it may vouch for; none listed means that it was made without limits. */
  readonly dns: readonly string[] | undefined;
  /** SHA-256 of the certificate, as devices show it. */
  readonly fingerprint: string;
}

export interface AuthorityOptions {
  /** The only DNS names the authority will ever vouch for. */
  readonly dns: readonly string[];
  /** False leaves the limits out, for devices that refuse a limited authority. */
  readonly nameConstraints: boolean;
  /** Devices trust an authority of this shop already: one that is missing is not made anew behind their back. */
  readonly trusted?: boolean;
}

const paths = (dir: string) => ({ key: join(dir, "authority.key.pem"), certificate: join(dir, "authority.pem") });

/**
 * The authority kept in `dir`, made there on first use. Its key file is readable by the owner alone.
 * @throws PlainError when devices trust one that is not here, or what is here is no whole authority that still holds
 */
export async function openAuthority(dir: string, options: AuthorityOptions): Promise<Authority> {
  const files = paths(dir);
  if (!existsSync(files.key) || !existsSync(files.certificate)) {
    if (options.trusted === true)
      throw new PlainError(
        `Expected the shop's certificate authority in ${dir}, got none, though devices trust one: put that folder back from a backup, ${ANEW}`,
      );
    await mkdir(dir, { recursive: true, mode: 0o700 });
    const made = await makeAuthority(options);
    // The certificate last: a key without it is made anew.
    await writeWhole(files.key, await keyPem(made.key), 0o600);
    await writeWhole(files.certificate, made.certificate.toString("pem"), 0o600);
  }
  await chmod(files.key, 0o600);
  return await readAuthority(await readFile(files.certificate, "utf8"), await readFile(files.key, "utf8"), dir);
}

async function readAuthority(certificatePem: string, key: string, dir: string): Promise<Authority> {
  const fault = faultOf(certificatePem, key);
  if (fault !== undefined)
    throw new PlainError(`Expected ${fault[0]} in ${dir}, got ${fault[1]}: put that folder back from a backup, ${ANEW}`);
  const certificate = new x509.X509Certificate(certificatePem);
  const fingerprint = await fingerprintOf(certificate);
  return { certificate, key: await importKey(key), dns: permittedNames(certificate), fingerprint };
}

/** What is wrong with a kept authority: what was expected, and what there is. */
function faultOf(certificatePem: string, key: string): readonly [expected: string, got: string] | undefined {
  let certificate: X509Certificate;
  try {
    certificate = new X509Certificate(certificatePem);
  } catch {
    return ["a certificate in authority.pem", certificatePem.trim() === "" ? "an empty file" : "something else"];
  }
  try {
    if (!certificate.checkPrivateKey(createPrivateKey(key)))
      return ["the key of authority.pem in authority.key.pem", "another certificate's key"];
  } catch {
    return ["a private key in authority.key.pem", key.trim() === "" ? "an empty file" : "something else"];
  }
  if (!certificate.ca) return ["an authority's certificate in authority.pem", "another kind of certificate"];
  if (Date.parse(certificate.validTo) < Date.now())
    return ["an authority that still holds", `one that ended on ${new Date(certificate.validTo).toISOString().slice(0, 10)}`];
  return undefined;
}

async function makeAuthority({ dns, nameConstraints }: AuthorityOptions) {
  const keys = await webcrypto.subtle.generateKey(KEY_ALGORITHM, true, ["sign", "verify"]);
  const from = new Date(Date.now() - 86_400_000);
  const tag = Buffer.from(webcrypto.getRandomValues(new Uint8Array(3))).toString("hex");
  const certificate = await x509.X509CertificateGenerator.createSelfSigned({
    serialNumber: serialNumber(),
    name: `CN=Thoubook shop authority ${tag}`,
    notBefore: from,
    notAfter: new Date(from.getTime() + YEARS * YEAR_MS),
    keys: keys as CryptoKeyPair,
    signingAlgorithm: KEY_ALGORITHM,
    extensions: [
      new x509.BasicConstraintsExtension(true, 0, true),
      new x509.KeyUsagesExtension(x509.KeyUsageFlags.keyCertSign | x509.KeyUsageFlags.cRLSign, true),
      // For servers only: a stolen key signs no mail, no program and no person either.
      new x509.ExtendedKeyUsageExtension([x509.ExtendedKeyUsage.serverAuth]),
      await x509.SubjectKeyIdentifierExtension.create(keys.publicKey as CryptoKey),
      ...(nameConstraints ? [constraintsExtension(dns)] : []),
    ],
  });
  return { certificate, key: keys.privateKey as CryptoKey };
}

/**
 * Permitted DNS names and address ranges (RFC 5280 section 4.2.1.10), critical. Both kinds must be there:
 * a kind that is not named at all is not limited.
 */
function constraintsExtension(dns: readonly string[]): x509.Extension {
  const subtrees = [
    ...dns.map((dNSName) => new GeneralSubtree({ base: new GeneralName({ dNSName }) })),
    ...PERMITTED_RANGES.map((iPAddress) => new GeneralSubtree({ base: new GeneralName({ iPAddress }) })),
  ];
  const constraints = new NameConstraints({ permittedSubtrees: new GeneralSubtrees(subtrees) });
  return new x509.Extension(id_ce_nameConstraints, true, AsnConvert.serialize(constraints));
}

function permittedNames(certificate: x509.X509Certificate): string[] | undefined {
  const extension = certificate.getExtension(id_ce_nameConstraints);
  if (extension === null) return undefined;
  const { permittedSubtrees } = AsnConvert.parse(extension.value, NameConstraints);
  return [...(permittedSubtrees ?? [])].flatMap(({ base }) => (base.dNSName === undefined ? [] : [base.dNSName]));
}

export function serialNumber(): string {
  const bytes = Buffer.from(webcrypto.getRandomValues(new Uint8Array(16)));
  // A serial number is positive: its first bit is clear.
  bytes[0] = ((bytes[0] ?? 0) & 0x7f) | 0x40;
  return bytes.toString("hex");
}

export async function keyPem(key: unknown): Promise<string> {
  return x509.PemConverter.encode(await webcrypto.subtle.exportKey("pkcs8", key as never), "PRIVATE KEY");
}

async function importKey(pem: string): Promise<CryptoKey> {
  const der = x509.PemConverter.decodeFirst(pem);
  return (await webcrypto.subtle.importKey("pkcs8", der, KEY_ALGORITHM, true, ["sign"])) as CryptoKey;
}

async function fingerprintOf(certificate: x509.X509Certificate): Promise<string> {
  const hash = Buffer.from(await certificate.getThumbprint("SHA-256"))
    .toString("hex")
    .toUpperCase();
  return hash.match(/../g)?.join(" ") ?? hash;
}
