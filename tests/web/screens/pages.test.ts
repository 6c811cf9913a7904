// The other pages of a build, each doing its work in a real browser.
import type { Browser, Page } from "playwright-core";
import { beforeAll, describe, expect, it } from "vitest";
import { complaints, newBuild, openBrowser, openShop, type Shop, storedEvents, typed } from "../harness.ts";

let shop: Shop;
let browser: Browser;
let build: string;
beforeAll(async () => {
  shop = await openShop();
  browser = await openBrowser();
  build = await newBuild(shop);
  await typed(shop, build, [
    "open bores",
    "bore one top thrust, three eight eight three two",
    "bore one top axial, three eight eight oh one",
    "bore one bottom thrust, three eight seven six eight",
    "open main bearings",
    "main two clearance, five thou",
    "ring gap two top, nine thou",
    "ring gap two top, thirteen thou",
  ]);
});

async function open(hash: string): Promise<{ page: Page; complained: string[] }> {
  const page = await (await browser.newContext({ viewport: { width: 1440, height: 900 } })).newPage();
  const complained = complaints(page);
  await page.goto(`${shop.url}/#/${hash}`);
  return { page, complained };
}

describe("pages of a build", () => {
  it("shows every reading of a cylinder, the one that gave way too", async () => {
    const { page, complained } = await open(`place/${build}/cylinder%3D2`);
    await page.getByRole("heading", { name: "Ring end gap" }).waitFor();
    expect(await page.locator(".history .digits").allTextContents()).toEqual([".009", ".013"]);
    expect(await page.locator(".history .mark").allTextContents()).toEqual(["older", "good"]);
    expect(complained).toEqual([]);
  });

  it("draws the bore with the digits as they were spoken", async () => {
    const { page, complained } = await open(`bores/${build}`);
    const svg = page.locator(".bore-map").first();
    await svg.waitFor();
    expect(await svg.locator("text.figure").allTextContents()).toEqual(["3.8832", "3.8768", "3.8801"]);
    expect(complained).toEqual([]);
  });

  it("supposes shims out and shows the verdict of then beside today's, logging nothing", async () => {
    const before = (await storedEvents(shop, build)).length;
    const { page } = await open(`whatif/${build}`);
    await page.getByLabel("At").first().selectOption({ label: "main 2" });
    await page.getByLabel("Thou from each side").fill("3");
    await page.getByRole("button", { name: "Suppose it" }).nth(1).click();
    const row = page.locator("tbody tr").filter({ hasText: "main clearance" });
    await row.waitFor();
    // Half of what leaves each side leaves the clearance's other half: 5 thou less 3 thou is 2 thou.
    expect(await row.locator(".mark").allTextContents()).toEqual(["out", "good"]);
    expect((await storedEvents(shop, build)).length).toBe(before);
  });

  it("changes, adds and takes away rows of the sheet by touch, with its reason, and refuses what the file refuses", async () => {
    const { page } = await open(`sheet/${build}`);
    const keep = page.getByRole("button", { name: "Keep", exact: true });
    await page.getByRole("button", { name: "Change main clearance" }).click();
    const high = page.getByLabel("main clearance, good to");
    await page.getByLabel("main clearance, why it is changed").fill("manual, page 40");
    await high.fill("two thou");
    await keep.click();
    await page.getByText(/accept high: Expected a decimal number/).waitFor();
    // The sheet calls out all above .0040: what is good cannot reach past it.
    await high.fill("0.0055");
    await keep.click();
    await page.getByText(/reject high: Expected a reject limit at or above the accepted 0.0055, got 0.0040/).waitFor();
    await high.fill("0.0035");
    await keep.click();
    await page.getByText(/the sheet is at version 2/).waitFor();

    await page.getByText("Torques (3)").click();
    await page.getByRole("button", { name: "Change head", exact: true }).click();
    await page.getByLabel("head, stages").fill("20 40 52");
    await keep.click();
    await page.getByText("Expected a reason for the change, got none").waitFor();
    await page.getByLabel("head, why it is changed").fill("manual, page 44");
    await keep.click();
    await page.getByText(/the sheet is at version 3/).waitFor();

    await page.getByText("Photos asked for (8)").click();
    await page.getByRole("button", { name: "Change bore hatch" }).click();
    await page.getByLabel("bore hatch, why it is changed").fill("no camera that week");
    await page.getByRole("button", { name: "Take away" }).click();
    await page.getByText(/the sheet is at version 4/).waitFor();

    await page.getByText("Steps of the job").click();
    await page.getByRole("button", { name: "Add a step" }).click();
    await page.getByLabel("intake, step").selectOption("shop_1");
    await page.getByLabel("shop 1, called").fill("Paint");
    await page.getByLabel("shop 1, after").fill("final_torque");
    await page.getByLabel("shop 1, why it is changed").fill("the customer wants it green");
    await keep.click();
    await page.getByText(/the sheet is at version 5/).waitFor();

    await page.getByText("all sent").waitFor();
    const revised = (await storedEvents(shop, build)).filter(({ type }) => type === "spec.revised");
    expect(revised.map(({ data }) => data.why)).toEqual([
      "main clearance is changed: manual, page 40",
      "head is changed: manual, page 44",
      "bore hatch is taken away: no camera that week",
      "shop 1 is added: the customer wants it green",
    ]);
    expect(revised.at(-1)?.data.spec).toMatchObject({ version: 5, fasteners: { head: { stages: ["20", "40", "52"] } } });
    await page.goto(`${shop.url}/#/book/${build}`);
    await page.getByText("limit main clearance: good to 0.0035, was 0.0025").waitFor();
  });

  it("names line and field of a fault in the sheet's text", async () => {
    const { page } = await open(`sheet/${build}`);
    await page.getByText("The whole sheet as text").click();
    const text = page.getByLabel("YAML or JSON");
    await text.fill((await text.inputValue()).replace("cylinders: 4", "cylinders: four"));
    await page.getByRole("button", { name: "Keep as the next version" }).click();
    expect(await page.locator(".sheet-errors li").first().textContent()).toMatch(/^sheet:\d+: engine\.cylinders: Expected/);
  });

  it("keeps a gauge and its zero check", async () => {
    const { page } = await open(`gauges/${build}`);
    await page.getByLabel("Name").fill("bore gauge 2");
    await page.getByLabel("Kind").fill("dial bore gauge");
    await page.getByLabel("Reads to").fill("0.0001");
    await page.getByLabel(/Trusted to/).fill("0.0002");
    await page.getByLabel("Used for").selectOption(["bore_diameter"]);
    await page.getByRole("button", { name: "Keep it" }).click();
    await page.getByLabel("bore gauge 2, off by, in").fill("0.0001");
    await page.getByRole("button", { name: "Zeroed" }).click();
    await page.getByText(/off by \.0001 in/).waitFor();
  });

  it("writes a record with figures, open points and the head hash", async () => {
    const { page, complained } = await open(`record/${build}`);
    await page.getByRole("heading", { name: "Record of the rebuild" }).waitFor();
    expect(await page.locator(".record-foot code").textContent()).toMatch(/^[0-9a-f]{64}$/);
    expect(await page.locator(".record-step").filter({ hasText: "Rings" }).textContent()).toContain(".013 in");
    await page.emulateMedia({ media: "print" });
    expect(await page.locator(".thumb-index").isVisible()).toBe(false);
    expect(complained).toEqual([]);
  });

  it("opens a metric twin on a blank sheet of its kind, after refusing it as a 68-inch engine", async () => {
    const { page } = await open("new");
    const warning = page.locator(".warning");
    await page.getByLabel("Name of the build").fill("Pump engine");
    await page.getByLabel("Engine", { exact: true }).fill("Pump Twin");
    // Of a six nobody has to fill in more than a build's and an engine's name, bore and stroke; the rest is the kind's.
    await page.getByLabel("Kind").selectOption("six");
    expect(await page.locator("form input:invalid").evaluateAll((boxes) => boxes.map((box) => box.getAttribute("name")))).toEqual(
      ["bore", "stroke"],
    );
    expect(await page.getByLabel("Firing order").inputValue()).toBe("1 5 3 6 2 4");
    await page.getByLabel("Kind").selectOption("twin");
    await page.getByLabel("Valves").selectOption("overhead");
    await page.locator("select[name=bearings]").selectOption("roller");
    await page.getByLabel("Standard bore, in").fill("68.00");
    await page.getByLabel("Stroke, in").fill("68.0 mm");
    await page.getByRole("button", { name: "Open it" }).click();
    await warning
      .getByText("nominals bore: Expected bore of 0.39 to 24 in, got 68.00 in: write the unit behind a figure in mm")
      .waitFor();
    await page.getByLabel("Measured in").selectOption("metric");
    expect(await page.getByLabel("Standard bore, mm").inputValue()).toBe("68.00");
    await page.getByRole("button", { name: "Open it" }).click();
    await page.getByRole("heading", { name: "Pump engine" }).waitFor();
    const id = /book\/([0-9a-f-]{36})/.exec(page.url())?.[1] ?? "";
    const [opened] = await storedEvents(shop, id);
    expect(opened?.data.spec).toMatchObject({
      units: "metric",
      engine: { cylinders: 2, arrangement: "opposed", heads: "cylinder", rodNuts: 0, bearings: { rod: "roller" } },
      nominals: { bore: ["68.00"], stroke: ["68.0 mm"] },
    });
  });

  it("leaves a finding as it is with a reason, and hands over with the head hash", async () => {
    const { page } = await open(`book/${build}`);
    const finding = page.locator(".standing .finding").first();
    await finding.getByText("Leave it as it is").click();
    await finding.getByLabel("Why").fill("owner knows, measured twice");
    await finding.getByRole("button", { name: /Sign/ }).click();
    await page.locator(".entry-text", { hasText: "left as it is by bench: owner knows, measured twice" }).waitFor();
    await page.getByText("all sent").waitFor();
    const accepted = (await storedEvents(shop, build)).find(({ type }) => type === "finding.accepted");
    expect(accepted?.data).toMatchObject({ why: "owner knows, measured twice", by: "bench" });
    await page.goto(`${shop.url}/#/record/${build}`);
    // The record names the last entry that the shop has.
    const { events } = (await (await fetch(`${shop.url}/api/builds/${build}/events`)).json()) as { events: { hash: string }[] };
    const head = events.at(-1)?.hash ?? "none";
    await page.locator(".record-foot code", { hasText: head }).waitFor();
    await page.getByLabel("To", { exact: true }).fill("the owner");
    await page.getByRole("button", { name: /Hand over/ }).click();
    await page.getByText(/Handed over by bench/).waitFor();
    await page.getByText("all sent").waitFor();
    const over = (await storedEvents(shop, build)).find(({ type }) => type === "build.handed_over");
    expect(over?.data).toMatchObject({ by: "bench", to: "the owner", head });
  });
});
