// A page through axe-core; the page's context must bypass the content policy, or axe cannot be put in.
import { readFileSync } from "node:fs";
import type { Page } from "playwright-core";

const AXE = readFileSync("node_modules/axe-core/axe.min.js", "utf8");

interface AxeResult {
  readonly violations: readonly {
    readonly id: string;
    readonly nodes: readonly { readonly html: string; readonly failureSummary: string }[];
  }[];
}
declare const axe: { run(root: unknown, options: unknown): Promise<AxeResult> };

/** What axe complains of on a page, contrast of 7:1 included. */
export async function axeSays(page: Page): Promise<string[]> {
  await page.evaluate(AXE);
  const { violations } = await page.evaluate(() =>
    axe.run(document, {
      runOnly: ["wcag2a", "wcag2aa", "wcag2aaa", "wcag21aa", "wcag22aa", "best-practice"],
      rules: { "color-contrast-enhanced": { enabled: true } },
    }),
  );
  return violations.map(
    ({ id, nodes }) => `${id}: ${nodes.map(({ html, failureSummary }) => `${html} ${failureSummary}`).join("\n")}`,
  );
}
