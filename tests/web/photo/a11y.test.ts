// Pictures through axe-core: the list with thumbnails and hand-in, and the large view with two side by side, by day and by night.
import { readFileSync } from "node:fs";
import { readFile } from "node:fs/promises";
import type { Browser, Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { newBuild, openBrowser, openShop, type Shop } from "../harness.ts";

const AXE = readFileSync("node_modules/axe-core/axe.min.js", "utf8");

interface AxeResult {
  readonly violations: readonly { readonly id: string; readonly nodes: readonly { readonly html: string }[] }[];
}
declare const axe: { run(root: unknown, options: unknown): Promise<AxeResult> };

let shop: Shop;
let browser: Browser;
let build: string;
beforeAll(async () => {
  shop = await openShop();
  browser = await openBrowser();
  build = await newBuild(shop);
  for (const file of ["cap-marks-3.jpg", "cotter-1.jpg"]) {
    const form = new FormData();
    form.append("place", '{"rod":1}');
    form.append("photo", new Blob([await readFile(new URL(`../../../demo-data/photos/${file}`, import.meta.url))]), file);
    await fetch(`${shop.url}/api/builds/${build}/photos`, { method: "POST", body: form });
  }
}, 120_000);

async function complaintsOf(page: Page): Promise<string[]> {
  const { violations } = await page.evaluate(() =>
    axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21aa", "wcag22aa", "best-practice"],
      rules: { "color-contrast-enhanced": { enabled: true } },
    }),
  );
  return violations.map(({ id, nodes }) => `${id}: ${nodes.map(({ html }) => html).join("\n")}`);
}

describe.each(["light", "dark"] as const)("pictures by %s", (colorScheme) => {
  it("have nothing for axe to complain of, small or large", async () => {
    const context = await browser.newContext({ viewport: { width: 412, height: 900 }, colorScheme, bypassCSP: true });
    const page = await context.newPage();
    await page.goto(`${shop.url}/#/place/${build}/rod=1`);
    await page.locator(".pictures .picture-button").nth(1).waitFor();
    await page.evaluate(AXE);
    expect(await complaintsOf(page)).toEqual([]);
    await page.locator(".pictures .picture-button").last().click();
    await page.locator("dialog .warning").waitFor();
    await page.getByLabel("Beside it").selectOption({ index: 1 });
    expect(await complaintsOf(page)).toEqual([]);
    const over = await page.locator("dialog").evaluate((box) => box.scrollWidth - box.clientWidth);
    expect(over).toBeLessThanOrEqual(0);
    await context.close();
  }, 60_000);
});
