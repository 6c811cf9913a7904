// Attacks tried from outside, over real sockets: what was tried, what must come back, and that the book is untouched.
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { takeClosers } from "../helper.ts";
import { BY_INSIDERS } from "./attacks/insiders.ts";
import { makeScene, type Scene } from "./attacks/scene.ts";
import { BY_STRANGERS } from "./attacks/strangers.ts";
import { ask } from "./lan-helper.ts";

describe("attacks from outside", () => {
  let scene: Scene;
  let before: unknown;
  let close: () => Promise<void>;
  beforeAll(async () => {
    scene = await makeScene();
    close = takeClosers();
  });
  afterAll(() => close());
  const heads = async () => [
    await scene.to.shop.data.store.heads(),
    (await scene.to.list.devices()).map(({ id, role }) => [id, role]),
    (await scene.to.list.links()).length,
  ];

  it.each([...BY_STRANGERS, ...BY_INSIDERS])("%s", async (_what, tried, [status, code]) => {
    before = await heads();
    const answer = await ask(scene.to, await tried(scene));
    expect([answer.status, answer.code]).toEqual([status, code]);
    expect(answer.headers["x-content-type-options"]).toBe("nosniff");
    expect(answer.headers["set-cookie"]).toBeUndefined();
    expect(await heads()).toEqual(before);
  });
});
