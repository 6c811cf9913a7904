// Every entry shows when its device says it happened and, beside it, when the shop received it by the shop's own clock.
import { expect, it } from "vitest";
import { receivedBeside } from "../../../server/lan/entries.ts";
import { bootShop, makeEvent } from "../helper.ts";
import { ask, bootLan, pair } from "./lan-helper.ts";

it.each([
  ["2026-03-04T10:11:12+01:00", "2026-03-04T09:12:00.000Z", "10:12"],
  ["2026-03-04T10:11:12Z", "2026-03-04T10:12:00.000Z", "10:12"],
  ["2026-03-04T23:59:00-05:00", "2026-03-05T05:01:00.000Z", "2026-03-05 00:01"],
  ["2026-03-03T10:11:12+05:30", "2026-03-04T04:42:00.000Z", "2026-03-04 10:12"],
])("%s received at %s reads %s", (at, received, text) => {
  expect(receivedBeside(at, received)).toBe(text);
});

it("on the plain pages and on a customer's record, whatever a device's clock says", async () => {
  const to = await bootLan();
  const { build } = to;
  // A clock that is a day behind.
  const at = new Date(Date.now() - 86_400_000).toISOString();
  const reading = {
    quantity: "bore_diameter" as const,
    place: { cylinder: 1 },
    value: 3.875,
    unit: "in" as const,
    digits: "3.8750",
    implied: [],
    do: "accept" as const,
    span: [0, 5] as [number, number],
  };
  const events = [makeEvent(build, "reading.taken", { reading }, { at })];
  const answer = await to.shop.app.inject({ method: "POST", url: `/api/builds/${build}/events`, payload: { events } });
  expect(answer.statusCode).toBe(200);
  const [, row] = await to.shop.data.store.rowsAfter(build, 0, 2);
  const shown = `received ${receivedBeside(at, row?.receivedAt ?? "")}`;
  expect(shown).toContain(row?.receivedAt.slice(0, 10));
  const cookie = await pair(to, "viewer", "plain");
  expect((await ask(to, { door: "plain", path: `/book/${build}`, headers: { cookie } })).text).toContain(shown);
  const { token } = await to.list.makeLink(build, 7, "plain");
  expect((await ask(to, { door: "plain", path: `/record/${token}` })).text).toContain(shown);
});

it("in every answer about an event", async () => {
  const { app } = await bootShop();
  const opened = await app.inject({ method: "POST", url: "/api/builds", payload: { name: "Mill engine", demo: true } });
  const build = opened.json().id as string;
  const said = await app.inject({ method: "POST", url: `/api/builds/${build}/utterances`, payload: { text: "bore 1 3.8750" } });
  const page = await app.inject(`/api/builds/${build}/events`);
  const exported = await app.inject(`/api/builds/${build}/export`);
  for (const { events } of [said.json(), page.json(), exported.json()] as {
    events: { receivedAt: string; event: { at: string } }[];
  }[]) {
    expect(events.length).toBeGreaterThan(0);
    for (const row of events) for (const time of [row.receivedAt, row.event.at]) expect(new Date(time).getTime()).not.toBeNaN();
  }
});
