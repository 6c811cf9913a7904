// What a backup says of itself: what is in it, how far each log had come, and what was wrong when it was made.
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import { z } from "zod";
import { sha256Schema } from "../../shared/events/events.ts";
import { writeWhole } from "../disk.ts";
import { PlainError } from "../errors.ts";
import { faultSchema } from "./fault.ts";

export const MANIFEST = "manifest.json";
/** The manifest's own hash, in the form that `sha256sum -c` reads. */
export const MANIFEST_HASH = `${MANIFEST}.sha256`;

/** A backup, a restore or an import that cannot be done, with one plain sentence. */
export class MoveError extends PlainError {
  override readonly name = "MoveError";
}

const file = { sha256: sha256Schema, bytes: z.int().min(0) };
const common = {
  version: z.string(),
  madeAt: z.string(),
  database: z.strictObject(file),
  /** Number and hash of each build's last entry: kept elsewhere, this tells a rewritten or shortened log. */
  heads: z.array(z.strictObject({ build: z.string(), seq: z.int().min(1), hash: sha256Schema })),
  /** Clips and photos by their names. */
  blobs: z.array(z.strictObject(file)),
};

const firstSchema = z.strictObject({ format: z.literal("thoubook-backup/1"), ...common });

export const manifestSchema = z.strictObject({
  format: z.literal("thoubook-backup/2"),
  ...common,
  /** Other files by their path in the backup: the shop's id, and the keys of its door. */
  files: z.array(z.strictObject({ path: z.string().regex(/^(lan\/)?[\w.-]*\w$/), ...file })),
  /** Whether the private keys of the shop's door are in it: who holds them can pass for this shop. */
  keys: z.enum(["kept", "left_out", "none"]),
  /** Whether its clips and photos lie in the folder `blobs` beside it, shared with other backups. */
  pooled: z.boolean(),
  /** What verify told of the copy: empty for a good backup. */
  faults: z.array(faultSchema),
});
export type Manifest = z.infer<typeof manifestSchema>;

/** Write the manifest of the backup in `dir`, and its hash. */
export async function writeManifest(dir: string, manifest: Manifest): Promise<void> {
  const text = `${JSON.stringify(manifest, null, 2)}\n`;
  await writeWhole(join(dir, MANIFEST), text, 0o600);
  await writeWhole(join(dir, MANIFEST_HASH), hashLine(text), 0o600);
}

const hashLine = (text: string) => `${createHash("sha256").update(text).digest("hex")}  ${MANIFEST}\n`;

/** @throws MoveError when there is none, or it is not as it was written */
export async function readManifest(dir: string): Promise<Manifest> {
  const text = await readFile(join(dir, MANIFEST), "utf8").catch(() => undefined);
  if (text === undefined) throw new MoveError(`Expected a backup's ${MANIFEST} in ${dir}, got none`);
  const json = orUndefined(text);
  const first = firstSchema.safeParse(json);
  // The first form had no hash of its own.
  if (first.success) return { ...first.data, format: "thoubook-backup/2", files: [], keys: "none", pooled: false, faults: [] };
  const line = await readFile(join(dir, MANIFEST_HASH), "utf8").catch(() => "none");
  if (line !== hashLine(text))
    throw new MoveError(
      `Expected the backup's ${MANIFEST} in ${dir} as it was written, got one that ${MANIFEST_HASH} does not fit`,
    );
  const parsed = manifestSchema.safeParse(json);
  if (!parsed.success) throw new MoveError(`Expected a backup's manifest in ${dir}, got another file`);
  return parsed.data;
}

function orUndefined(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
