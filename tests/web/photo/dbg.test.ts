import { writeFileSync } from "node:fs"; import sharp from "sharp"; import { it } from "vitest";
import { newBuild, openBrowser, openShop, storedEvents } from "../harness.ts"; import { microphoneArgs, spokenWav } from "../sound.ts";
it("dbg", async () => {
  const jpeg = await sharp("demo-data/photos/cap-marks-3.jpg").resize(1280, 720, { fit: "cover" }).jpeg({ quality: 90 }).toBuffer(); writeFileSync("/tmp/ph/f.mjpeg", Buffer.concat(Array.from({length:8},()=>jpeg)));
  const shop = await openShop(); const { path, seconds } = await spokenWav(["take a picture of rod two"]);
  const browser = await openBrowser([...microphoneArgs(path), "--use-file-for-fake-video-capture=/tmp/ph/f.mjpeg"]);
  const build = await newBuild(shop); const page = await browser.newPage(); const log: string[] = [];
  page.on("console", m => log.push(m.text())); page.on("pageerror", e => log.push("ERR " + e.message));
  await page.goto(`${shop.url}/#/bench/${build}`); await page.getByRole("button", { name: /Start listening/ }).click();
  let last = ""; const t0 = Date.now();
  while (Date.now() - t0 < seconds * 1000 + 25000) { const t = JSON.stringify([await page.locator(".live-words").textContent(), await page.locator(".glance-heard").textContent({timeout:50}).catch(()=>""), await page.locator(".glance-said").textContent({timeout:50}).catch(()=>"")]); if (t !== last) log.push(`${Date.now()-t0} ${t}`); last = t; await page.waitForTimeout(100); }
  log.push(JSON.stringify((await storedEvents(shop, build)).map(e => [e.type, JSON.stringify(e.data).slice(0, 150)]), null, 1)); writeFileSync("/tmp/ph/dbg.txt", log.join("\n"));
}, 120000);
