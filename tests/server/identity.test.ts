// The shop's id: answered with the health, the same at every start, another for another folder, never silently replaced.
import { readFile, writeFile } from "node:fs/promises";
import { join } from "node:path";
import fc from "fast-check";
import { expect, it } from "vitest";
import { dataPaths, openShopData } from "../../server/data-dir.ts";
import { readIdentity } from "../../server/identity.ts";
import { bootShop, type TestShop, tempDir } from "./helper.ts";

const answered = async ({ app }: TestShop) => (await app.inject("/api/health")).json().shop as string;

it("is the same at every start and another in another folder", async () => {
  const dir = join(await tempDir(), "shop");
  const first = await bootShop({ dir });
  const id = await answered(first);
  await first.app.close();
  await first.data.close();
  expect(await answered(await bootShop({ dir }))).toBe(id);
  expect(await answered(await bootShop())).not.toBe(id);
});

it("is refused with one sentence where any bit of it is flipped, and kept as it is", async () => {
  const dir = join(await tempDir(), "shop");
  const shop = await bootShop({ dir });
  const id = await answered(shop);
  await shop.app.close();
  await shop.data.close();
  const { identity } = dataPaths(dir);
  const whole = await readFile(identity);
  await fc.assert(
    fc.asyncProperty(fc.integer({ min: 0, max: whole.length * 8 - 1 }), async (bit) => {
      const bytes = Buffer.from(whole);
      bytes[bit >> 3] = (bytes[bit >> 3] ?? 0) ^ (1 << (bit & 7));
      await writeFile(identity, bytes);
      // A flip in the spaces between may leave the same words.
      expect(await readIdentity(identity).catch((error: Error) => error.message)).toSatisfy(
        (got: string) => got === id || got.startsWith("Expected the shop's id"),
      );
    }),
  );
  await writeFile(identity, whole.subarray(0, 40));
  await expect(openShopData(dir)).rejects.toThrow(/^Expected the shop's id in .*shop\.json, got a damaged file/);
  expect(await readFile(identity)).toEqual(whole.subarray(0, 40));
});
