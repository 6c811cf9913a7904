// Files and folders put on the disk for certain: whole or absent, with the right to read them set before anything is in them.
import { randomUUID } from "node:crypto";
import { open, rename, rm } from "node:fs/promises";
import { dirname } from "node:path";

/** Write `text` to `path` through a temporary file; when it resolves, a power cut leaves the new text. */
export async function writeWhole(path: string, text: string, mode: number): Promise<void> {
  const temporary = `${path}.${randomUUID()}.part`;
  try {
    const file = await open(temporary, "wx", mode);
    try {
      await file.chmod(mode);
      await file.writeFile(text);
      await file.sync();
    } finally {
      await file.close();
    }
    await rename(temporary, path);
  } catch (error) {
    await rm(temporary, { force: true });
    throw error;
  }
  await sync(dirname(path));
}

/** Have the system write a file's bytes, or a folder's names, to the disk. */
export async function sync(path: string): Promise<void> {
  const handle = await open(path, "r");
  await handle.sync().finally(() => handle.close());
}
