// Small files that must be whole or absent, with the right to read them set before anything is in them.
import { open, rename } from "node:fs/promises";

/** Write `text` to `path` through a temporary file that is on the disk for certain. */
export async function writeWhole(path: string, text: string, mode: number): Promise<void> {
  const temporary = `${path}.part`;
  const file = await open(temporary, "w", mode);
  try {
    await file.chmod(mode);
    await file.writeFile(text);
    await file.sync();
  } finally {
    await file.close();
  }
  await rename(temporary, path);
}
