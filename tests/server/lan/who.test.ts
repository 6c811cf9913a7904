// Who wrote an entry is told by the pass at the door: a request may say more exactly who, and never somebody else.
import { v7 } from "uuid";
import { describe, expect, it } from "vitest";
import { clipForm, makeEvent, makeWav, multipart, textEvent } from "../helper.ts";
import { goodJpeg } from "../routes/bad-files.ts";
import { type Answer, ask, bootLan, form, json, pair, type TestLan } from "./lan-helper.ts";

interface Scene {
  readonly to: TestLan;
  readonly cookie: string;
  /** Id of the device whose pass is shown, and of the one it claims to be. */
  readonly own: string;
  readonly owner: string;
}

async function scene(): Promise<Scene> {
  const to = await bootLan();
  await pair(to, "owner", "secure", "Owner phone");
  const cookie = await pair(to, "bench", "secure", "Phone at the vise");
  const idOf = async (name: string) => (await to.list.devices()).find((device) => device.name === name)?.id ?? "";
  return { to, cookie, own: await idOf("Phone at the vise"), owner: await idOf("Owner phone") };
}

const send = ({ to, cookie }: Scene, path: string, body: { headers: Record<string, string>; body: string | Buffer }) =>
  ask(to, { door: "secure", path, method: "POST", ...body, headers: { ...body.headers, cookie } });
const sendForm = (at: Scene, path: string, { payload, headers }: { payload: Buffer; headers: Record<string, string> }) =>
  send(at, path, { headers, body: payload });

/** Every event of a build with who wrote it, oldest first, without the opening one. */
async function writers({ to }: Scene, build = to.build): Promise<[device: string, by: string][]> {
  const rows = await to.shop.data.store.rowsAfter(build, build === to.build ? 1 : 0, 100);
  return rows.map(({ body }) => {
    const { device, by } = JSON.parse(body) as { device: string; by: string };
    return [device, by];
  });
}

describe("a request that claims to be another device and person", () => {
  it.each<[what: string, go: (at: Scene, claim: { device: string; by: string }) => Promise<Answer>]>([
    [
      "in typed words",
      (at, claim) => send(at, `/api/builds/${at.to.build}/utterances`, json({ text: "bore 1 3.8750", ...claim })),
    ],
    [
      "in an event",
      (at, claim) =>
        send(at, `/api/builds/${at.to.build}/events`, json({ events: [{ ...textEvent(at.to.build, "a"), ...claim }] })),
    ],
    ["in a clip's form", (at, claim) => sendForm(at, `/api/builds/${at.to.build}/clips`, clipForm(makeWav(), claim))],
    [
      "in a photo's form",
      async (at, { device, by }) =>
        sendForm(
          at,
          `/api/builds/${at.to.build}/photos`,
          multipart([
            { name: "device", value: device },
            { name: "by", value: by },
            { name: "photo", filename: "a.jpg", value: await goodJpeg() },
          ]),
        ),
    ],
  ])("%s is logged under its own name, with the claim behind it", async (_what, go) => {
    const at = await scene();
    expect((await go(at, { device: at.owner, by: "Owner phone" })).status).toBe(200);
    const written = await writers(at);
    expect(written.length).toBeGreaterThan(0);
    for (const row of written) expect(row).toEqual([`${at.own}/${at.owner}`, "Phone at the vise (Owner phone)"]);
  });

  it("in opening a build", async () => {
    const at = await scene();
    const id = v7();
    const body = { id, name: "Mill engine", demo: true, device: "shop", by: "shop" };
    expect((await send(at, "/api/builds", json(body))).status).toBe(201);
    expect(await writers(at, id)).toEqual([[`${at.own}/shop`, "Phone at the vise (shop)"]]);
  });
});

describe("the name of an entry", () => {
  it.each([
    ["no claim", {}, (own: string) => [own, "Phone at the vise"]],
    ["its own id", { device: "OWN" }, (own: string) => [own, "Phone at the vise"]],
    ["a part of itself", { device: "bench-7f" }, (own: string) => [`${own}/bench-7f`, "Phone at the vise"]],
    ["a part of itself, in full", { device: "OWN/bench-7f" }, (own: string) => [`${own}/bench-7f`, "Phone at the vise"]],
    ["a part of another device", { device: "OTHER/bench-7f" }, (own: string) => [`${own}/bench-7f`, "Phone at the vise"]],
    ["a person", { by: "Kit" }, (own: string) => [own, "Phone at the vise (Kit)"]],
    ["nobody by name", { by: "bench" }, (own: string) => [own, "Phone at the vise"]],
  ])("with %s", async (_what, claim, named) => {
    const at = await scene();
    const device = "device" in claim ? claim.device?.replace("OWN", at.own).replace("OTHER", at.owner) : undefined;
    const body = { text: "bore 1 3.8750", ...claim, ...(device === undefined ? {} : { device }) };
    expect((await send(at, `/api/builds/${at.to.build}/utterances`, json(body))).status).toBe(200);
    expect((await writers(at))[0]).toEqual(named(at.own));
  });

  it("stays what it was logged under when the answer is asked for again after a new name and a new pairing", async () => {
    const at = await scene();
    const events = [textEvent(at.to.build, "words")];
    const path = `/api/builds/${at.to.build}/events`;
    const first = await send(at, path, json({ events }));
    await at.to.list.rename(at.own, "Phone at the lathe");
    expect((await send(at, path, json({ events }))).text).toBe(first.text);
    const cookie = await pair(at.to, "bench", "secure", "New phone");
    expect((await send({ ...at, cookie }, path, json({ events }))).text).toBe(first.text);
    expect(await writers(at)).toEqual([[`${at.own}/phone-1`, "Phone at the vise (fitter)"]]);
    const other = await send({ ...at, cookie }, path, json({ events: [{ ...events[0], data: { text: "other", by: "typed" } }] }));
    expect(other.code).toBe("id_conflict");
  });

  it("is anybody's on the shop's own machine, which carries in what a device could not send", async () => {
    const at = await scene();
    const event = makeEvent(at.to.build, "step.opened", { step: "rings" }, { device: `${at.own}/bench-7f`, by: "Kit" });
    const url = `/api/builds/${at.to.build}/events`;
    expect((await at.to.shop.app.inject({ method: "POST", url, payload: { events: [event] } })).statusCode).toBe(200);
    expect(await writers(at)).toEqual([[`${at.own}/bench-7f`, "Kit"]]);
  });

  it("is refused in one sentence where a part of the device is longer than the book takes", async () => {
    const at = await scene();
    const events = [{ ...textEvent(at.to.build, "a"), device: "x".repeat(99) }];
    const answer = await send(at, `/api/builds/${at.to.build}/events`, json({ events }));
    expect([answer.status, answer.code]).toEqual([400, "invalid_request"]);
  });
});

describe("names of devices", () => {
  const names = async (to: TestLan) => (await to.list.devices()).map((device) => device.name).sort();

  it("are each had by one device: the next gets a number, and no name is given that another has", async () => {
    const to = await bootLan();
    for (const name of ["Phone", "phone", "This machine"]) await pair(to, "bench", "secure", name);
    expect(await names(to)).toEqual(["Phone", "This machine 2", "phone 2"]);
    const cookie = await pair(to, "owner", "secure", "Owner phone");
    const device = (await to.list.devices()).find((row) => row.name === "phone 2");
    const path = `/door/devices/${device?.id}/name`;
    const taken = await ask(to, { door: "secure", path, ...form({ name: "PHONE" }), headers: { ...form({}).headers, cookie } });
    expect([taken.status, taken.code]).toEqual([409, "name_taken"]);
  });

  it.each(["Phone (Kit)", "Phone\u202e", "Pho\u0000ne", "  "])(
    "hold no brackets and nothing that does not show: %j",
    async (name) => {
      const to = await bootLan();
      const { code } = await to.pairing.make("bench");
      const answer = await ask(to, { door: "secure", path: "/pair", ...form({ code, name }) });
      expect([answer.status, answer.code]).toEqual([400, "invalid_request"]);
      expect(await to.pairing.redeem(code, "192.168.7.9")).toBe("bench");
    },
  );

  it("a device that is paired again stays the same device, and its old pass opens nothing", async () => {
    const to = await bootLan();
    const old = await pair(to, "bench", "secure", "Phone");
    const [before] = await to.list.devices();
    await to.list.cutOff(before?.id ?? "");
    const { code } = await to.pairing.make("viewer");
    const again = await ask(to, {
      door: "secure",
      path: "/pair",
      ...form({ code, name: "Phone" }),
      headers: { ...form({}).headers, cookie: old },
    });
    const cookie = again.headers["set-cookie"]?.[0]?.split(";")[0] ?? "";
    expect((await to.list.devices()).map(({ id, name, role }) => [id, name, role])).toEqual([[before?.id, "Phone", "viewer"]]);
    const me = (pass: string) => ask(to, { door: "secure", path: "/api/me", headers: { cookie: pass } });
    expect([(await me(old)).status, (await me(cookie)).status]).toEqual([401, 200]);
  });
});
