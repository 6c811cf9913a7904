// Who this shop is: one random id kept in its data folder for good. A device that meets another id is talking to another shop.
import { createHash, randomUUID } from "node:crypto";
import { readFile } from "node:fs/promises";
import { z } from "zod";
import { writeWhole } from "./disk.ts";
import { PlainError } from "./errors.ts";

const identitySchema = z.strictObject({
  format: z.literal("thoubook-shop/1"),
  shop: z.uuid(),
  madeAt: z.iso.datetime(),
  /** SHA-256 over the two lines above: a changed id is noticed instead of being another shop. */
  check: z.string(),
});

const checkOf = (shop: string, madeAt: string) => createHash("sha256").update(`${shop}\n${madeAt}`).digest("hex");

/**
 * The id kept in the file at `path`; undefined where there is none yet.
 * @throws PlainError when the file is there and does not hold an id as it was written
 */
export async function readIdentity(path: string): Promise<string | undefined> {
  const text = await readFile(path, "utf8").catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return undefined;
    throw error;
  });
  if (text === undefined) return undefined;
  const parsed = identitySchema.safeParse(orUndefined(text));
  if (!parsed.success || parsed.data.check !== checkOf(parsed.data.shop, parsed.data.madeAt))
    throw new PlainError(`Expected the shop's id in ${path}, got a damaged file: put it back from a backup`);
  return parsed.data.shop;
}

/** Make a new id and keep it at `path`. */
export async function makeIdentity(path: string): Promise<string> {
  const shop = randomUUID();
  const madeAt = new Date().toISOString();
  const identity = { format: "thoubook-shop/1", shop, madeAt, check: checkOf(shop, madeAt) };
  await writeWhole(path, `${JSON.stringify(identity, null, 2)}\n`, 0o600);
  return shop;
}

function orUndefined(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}
