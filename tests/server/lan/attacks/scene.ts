// The scene of the attacks: a shop with two builds, devices of each role, one cut off, links good, revoked and over.
import sharp from "sharp";
import { multipart, openDemoBuild } from "../../helper.ts";
import { type Ask, bootLan, json, pair, type TestLan } from "../lan-helper.ts";

export interface Scene {
  readonly to: TestLan;
  readonly other: string;
  readonly cookies: Readonly<Record<"owner" | "bench" | "viewer" | "cut" | "plain", string>>;
  readonly link: string;
  readonly deadLink: string;
  readonly oldLink: string;
  readonly usedCode: string;
  readonly otherPhoto: string;
  readonly deviceId: string;
}

/** A shop with two builds, devices of each role, one cut off, and links good, revoked and over. */
export async function makeScene(): Promise<Scene> {
  const to = await bootLan();
  const other = await openDemoBuild(to.shop.app);
  const photo = await sharp({ create: { width: 40, height: 30, channels: 3, background: "#345" } })
    .jpeg()
    .toBuffer();
  const sent = await to.shop.app.inject({
    method: "POST",
    url: `/api/builds/${other}/photos`,
    ...multipart([{ name: "photo", filename: "a.jpg", value: photo }]),
  });
  const cookies = {
    owner: await pair(to, "owner", "secure", "Owner phone"),
    bench: await pair(to, "bench"),
    viewer: await pair(to, "viewer"),
    cut: await pair(to, "bench", "secure", "Lost phone"),
    plain: await pair(to, "owner", "plain", "Old tablet"),
  };
  const lost = (await to.list.devices()).find((device) => device.name === "Lost phone");
  await to.list.cutOff(lost?.id ?? "");
  const { token: link } = await to.list.makeLink(to.build, 7, "secure");
  const dead = await to.list.makeLink(to.build, 7, "plain");
  await to.list.revokeLink(dead.link.id);
  const { token: oldLink } = await to.list.makeLink(to.build, -1, "plain");
  const { code: usedCode } = await to.pairing.make("bench");
  await to.pairing.redeem(usedCode, "192.168.7.9");
  const { code: _unused } = await to.pairing.make("owner");
  return {
    to,
    other,
    cookies,
    link,
    deadLink: dead.token,
    oldLink,
    usedCode,
    otherPhoto: sent.json().events[0].event.data.photo.sha256,
    deviceId: (await to.list.devices())[0]?.id ?? "",
  };
}

/** What is sent, made from the scene. */
export type Tried = (scene: Scene) => Ask | Promise<Ask>;
/** Status and code that must come back. */
export type Expected = readonly [status: number, code: string | undefined];

export const say = (scene: Scene) => `/api/builds/${scene.to.build}/utterances`;
export const words = json({ text: "bore 1 3.8750" });
export const as = (cookie: string, more: Record<string, string> = {}) => ({ cookie, ...more });
export const svg = Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" onload="alert(1)"><script>alert(1)</script></svg>');

export type Attack = readonly [what: string, tried: Tried, expected: Expected];
