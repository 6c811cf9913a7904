// Live updates over a real socket: what is stored appears, in order, and a watcher that comes back misses nothing.
import type { AddressInfo } from "node:net";
import { expect, it } from "vitest";
import { atEnd, bootShop, openDemoBuild, type TestShop } from "../helper.ts";

/** Follow a build until `count` events came; gives their numbers. */
async function follow(
  base: string,
  build: string,
  count: number,
  headers: Record<string, string> = {},
  started?: () => void,
): Promise<number[]> {
  const stop = new AbortController();
  const answer = await fetch(`${base}/api/builds/${build}/live`, { headers, signal: stop.signal });
  expect(answer.headers.get("content-type")).toBe("text/event-stream");
  expect(answer.headers.get("content-security-policy")).toContain("default-src 'none'");
  started?.();
  const seqs: number[] = [];
  let text = "";
  for await (const chunk of answer.body ?? []) {
    text += Buffer.from(chunk).toString();
    seqs.length = 0;
    for (const match of text.matchAll(/^id: (\d+)\ndata: (.+)\n\n/gm)) {
      expect(JSON.parse(match[2] ?? "").seq).toBe(Number(match[1]));
      seqs.push(Number(match[1]));
    }
    if (seqs.length >= count) break;
  }
  stop.abort();
  return seqs;
}

async function listen(shop: TestShop): Promise<string> {
  await shop.app.listen({ port: 0, host: "127.0.0.1" });
  return `http://127.0.0.1:${(shop.app.server.address() as AddressInfo).port}`;
}
const say = (shop: TestShop, build: string, text: string) =>
  shop.app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text } });

it("sends what is stored while it is watched, and on return what came after the last number seen", async () => {
  const shop = await bootShop();
  const base = await listen(shop);
  const build = await openDemoBuild(shop.app);
  const watching = follow(base, build, 2, {}, () => void say(shop, build, "bore 1 3.8750"));
  expect(await watching).toEqual([2, 3]);
  await say(shop, build, "bore 2 3.8750");
  expect(await follow(base, build, 3, { "last-event-id": "2" })).toEqual([3, 4, 5]);
  expect(await follow(base, build, 5, { "last-event-id": "0" })).toEqual([1, 2, 3, 4, 5]);
});

it("lets go of watchers that leave, and of all when the service stops", async () => {
  const shop = await bootShop();
  const base = await listen(shop);
  const build = await openDemoBuild(shop.app);
  await follow(base, build, 1, { "last-event-id": "0" });
  await expect.poll(() => shop.deps.live.watchers).toBe(0);
  const answer = await fetch(`${base}/api/builds/${build}/live`);
  const ended = answer.text();
  atEnd(async () => ended);
  await shop.app.close();
  expect(await ended).toContain("retry:");
  expect(shop.deps.live.watchers).toBe(0);
});
