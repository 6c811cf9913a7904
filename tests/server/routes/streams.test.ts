// Live streams that take nothing: how much is read and kept for them is bounded, and others have their turn.
import { type AddressInfo, connect, type Socket } from "node:net";
import { expect, it } from "vitest";
import { SqlStore } from "../../../server/store/sql-store.ts";
import { atEnd, bootShop, openDemoBuild, textEvent } from "../helper.ts";

/** A client that asks for a build's stream from its beginning and never reads what comes. */
function watchWithoutReading(port: number, build: string): Socket {
  const socket = connect({ host: "127.0.0.1", port });
  socket.on("error", () => undefined);
  socket.pause();
  socket.write(`GET /api/builds/${build}/live?after=0 HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n`);
  atEnd(async () => socket.destroy());
  return socket;
}

it("200 streams that never read: few stay open, little is read for them, and a request is answered between", async () => {
  const shop = await bootShop();
  const build = await openDemoBuild(shop.app);
  for (let n = 0; n < 10; n += 1)
    await shop.deps.store.append(Array.from({ length: 500 }, () => textEvent(build, "x".repeat(1000))));
  let rows = 0;
  const { rowsAfter } = SqlStore.prototype;
  shop.data.store.rowsAfter = async (...args) => {
    const found = await rowsAfter.apply(shop.data.store, args);
    rows += found.length;
    return found;
  };
  await shop.app.listen({ port: 0, host: "127.0.0.1" });
  const { port } = shop.app.server.address() as AddressInfo;
  const sockets = Array.from({ length: 200 }, () => watchWithoutReading(port, build));
  // Asked after them and answered before: with a page at a time for one watcher, little is read until then.
  expect((await fetch(`http://127.0.0.1:${port}/api/health`)).status).toBe(200);
  expect(rows).toBeLessThan(50_000);
  await expect.poll(() => shop.deps.live.watchers, { timeout: 20_000 }).toBe(16);
  // Sixteen streams' worth: of 5,001 rows for 200 streams a million could be read.
  expect(rows).toBeLessThanOrEqual(16 * 5001 + sockets.length * 50);
  // Whoever does read is told of what comes.
  const stop = new AbortController();
  const live = await fetch(`http://127.0.0.1:${port}/api/builds/${build}/live?after=5001`, { signal: stop.signal });
  await shop.app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text: "bore 1 3.8750" } });
  let text = "";
  for await (const chunk of live.body ?? []) {
    text += Buffer.from(chunk).toString();
    if (text.includes("reading.taken")) break;
  }
  stop.abort();
  expect(text).toContain("id: 5002");
});

it("a device may keep sixteen streams; its seventeenth ends its first", async () => {
  const shop = await bootShop();
  const build = await openDemoBuild(shop.app);
  await shop.app.listen({ port: 0, host: "127.0.0.1" });
  const { port } = shop.app.server.address() as AddressInfo;
  const url = `http://127.0.0.1:${port}/api/builds/${build}/live`;
  const stop = new AbortController();
  atEnd(async () => stop.abort());
  const first = await fetch(url, { signal: stop.signal });
  const others = [];
  for (let n = 0; n < 15; n += 1) others.push(await fetch(url, { signal: stop.signal }));
  expect(shop.deps.live.watchers).toBe(16);
  others.push(await fetch(url, { signal: stop.signal }));
  expect(await first.text()).toContain("retry:");
  await expect.poll(() => shop.deps.live.watchers).toBe(16);
});
