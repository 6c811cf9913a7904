// A note beside the database of how far each log had come. A log that ends before it has lost entries that were acknowledged:
// the database alone cannot show that, because the beginning of a chain is a whole chain.
import { createHash } from "node:crypto";
import { readFile } from "node:fs/promises";
import { z } from "zod";
import { sha256Schema } from "../../shared/events/events.ts";
import { writeWhole } from "../disk.ts";
import { PlainError } from "../errors.ts";
import { canonicalJson } from "./canonical.ts";
import type { Head } from "./store.ts";

const witnessSchema = z.strictObject({
  format: z.literal("thoubook-heads/1"),
  at: z.iso.datetime(),
  heads: z.array(z.strictObject({ build: z.string(), seq: z.int().min(1), hash: sha256Schema })),
  /** SHA-256 over the canonical JSON of the rest. */
  check: sha256Schema,
});
export type Witnessed = Pick<z.infer<typeof witnessSchema>, "at" | "heads">;

const checkOf = (noted: Witnessed) => createHash("sha256").update(canonicalJson(noted)).digest("hex");

/** What was noted at `path`; undefined where nothing was. @throws PlainError when the note is damaged */
export async function readWitness(path: string): Promise<Witnessed | undefined> {
  const text = await readFile(path, "utf8").catch((error: NodeJS.ErrnoException) => {
    if (error.code === "ENOENT") return undefined;
    throw error;
  });
  if (text === undefined) return undefined;
  const parsed = witnessSchema.safeParse(parse(text));
  if (parsed.success) {
    const { at, heads, check } = parsed.data;
    if (check === checkOf({ at, heads })) return { at, heads };
  }
  throw new PlainError(`Expected the note of how far the logs had come in ${path}, got a damaged file: take it away to go on`);
}

function parse(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return undefined;
  }
}

/** Keeps the note up to date while a shop is open. It never runs ahead of what is stored. */
export class Witness {
  private readonly path: string;
  private readonly heads: Map<string, Head>;
  private changed = true;
  private writing: Promise<void> = Promise.resolve();

  constructor(path: string, heads: readonly Head[]) {
    this.path = path;
    this.heads = new Map(heads.map((head) => [head.build, head]));
  }

  /** A log has grown to this head, for certain. */
  saw(head: Head): void {
    const before = this.heads.get(head.build);
    if (before !== undefined && before.seq >= head.seq) return;
    this.heads.set(head.build, head);
    this.changed = true;
  }

  /** Write the note where it has changed; resolves when it is on the disk. */
  flush(): Promise<void> {
    this.writing = this.writing.catch(() => undefined).then(() => this.write());
    return this.writing;
  }

  private async write(): Promise<void> {
    if (!this.changed) return;
    this.changed = false;
    const noted = { at: new Date().toISOString(), heads: [...this.heads.values()] };
    const witness = { format: "thoubook-heads/1", ...noted, check: checkOf(noted) };
    try {
      await writeWhole(this.path, `${JSON.stringify(witness)}\n`, 0o600);
    } catch (error) {
      this.changed = true;
      throw error;
    }
  }
}
