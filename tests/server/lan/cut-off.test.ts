// A pass or link that is taken back takes with it what is under way: uploads begun before, forms half sent, streams half read.
import { createHash } from "node:crypto";
import { type ClientRequest, request as httpRequest, type IncomingMessage } from "node:http";
import { request as httpsRequest } from "node:https";
import { describe, expect, it } from "vitest";
import { clipForm, makeWav, multipart } from "../helper.ts";
import { goodJpeg } from "../routes/bad-files.ts";
import { ask, bootLan, form, json, NAME, pair, type TestLan } from "./lan-helper.ts";

type Upload = {
  readonly path: string;
  readonly method?: string;
  readonly headers: Record<string, string>;
  readonly body: Buffer;
};
const wav = makeWav(1);

const UPLOADS: readonly [what: string, make: (to: TestLan) => Promise<Upload> | Upload][] = [
  [
    "a raw sound",
    () => ({
      path: `/api/blobs/${createHash("sha256").update(wav).digest("hex")}`,
      method: "PUT",
      headers: { "content-type": "application/octet-stream" },
      body: wav,
    }),
  ],
  ["a clip", (to) => ({ path: `/api/builds/${to.build}/clips`, ...asUpload(clipForm(wav)) })],
  [
    "a photo",
    async (to) => ({
      path: `/api/builds/${to.build}/photos`,
      ...asUpload(multipart([{ name: "photo", filename: "a.jpg", value: await goodJpeg() }])),
    }),
  ],
  ["typed words", (to) => ({ path: `/api/builds/${to.build}/utterances`, ...asText(json({ text: "bore 1 3.8750" })) })],
  ["a new build", () => ({ path: "/api/builds", ...asText(json({ name: "Late", demo: true })) })],
  ["an owner's form for a code", () => ({ path: "/door/codes", ...asText(form({ role: "owner" })) })],
];
const asUpload = ({ payload, headers }: { payload: Buffer; headers: Record<string, string> }) => ({ headers, body: payload });
const asText = ({ headers, body }: { headers: Record<string, string>; body: string }) => ({ headers, body: Buffer.from(body) });

/** Open a request at the secure door and leave it to the caller to send its body. */
function begin(to: TestLan, cookie: string, { path, method = "POST", headers, body }: Upload): ClientRequest {
  const host = `${NAME}:${to.securePort}`;
  return httpsRequest({
    host: "127.0.0.1",
    port: to.securePort,
    ca: to.ca,
    servername: NAME,
    agent: false,
    method,
    path,
    headers: { host, cookie, "content-length": body.length, ...headers },
  });
}

async function everything(to: TestLan): Promise<unknown> {
  const names = [];
  for await (const name of to.shop.data.blobs.names()) names.push(name);
  const codes = await to.shop.data.store.db.selectFrom("pairing_code").selectAll().execute();
  return [await to.shop.data.store.heads(), names, codes];
}

describe("an upload begun before its device was cut off", () => {
  it.each(UPLOADS)("is refused when it ends after: %s", async (_what, make) => {
    const to = await bootLan();
    const cookie = await pair(to, "owner");
    const [device] = await to.list.devices();
    const upload = await make(to);
    const before = await everything(to);
    const request = begin(to, cookie, upload);
    const answered = new Promise<IncomingMessage>((resolve, reject) => request.on("response", resolve).on("error", reject));
    const half = Math.floor(upload.body.length / 2);
    request.write(upload.body.subarray(0, half));
    // It is at the door, and its body is being waited for.
    await expect.poll(async () => (await to.list.devices())[0]?.lastSeenAt).not.toBeUndefined();
    await to.list.cutOff(device?.id ?? "");
    request.end(upload.body.subarray(half));
    const answer = await answered;
    let text = "";
    for await (const chunk of answer) text += chunk;
    expect([answer.statusCode, (JSON.parse(text) as { code: string }).code]).toEqual([401, "not_paired"]);
    expect(await everything(to)).toEqual(before);
  });
});

/** A response that is not read until it is let go; tells when its connection is gone. */
function unread(
  to: TestLan,
  door: "secure" | "plain",
  path: string,
  cookie = "",
): Promise<{ response: IncomingMessage; gone: Promise<string> }> {
  const port = door === "secure" ? to.securePort : to.plainPort;
  const options = { host: "127.0.0.1", port, agent: false as const, path, headers: { host: `${NAME}:${port}`, cookie } };
  return new Promise((resolve, reject) => {
    const request = door === "secure" ? httpsRequest({ ...options, ca: to.ca, servername: NAME }) : httpRequest(options);
    request.on("error", reject);
    request.on("response", (response) => {
      const gone = new Promise<string>((ended) => {
        response.on("end", () => ended("whole")).on("error", () => ended("cut"));
      });
      resolve({ response, gone });
    });
    request.end();
  });
}

describe("what is being sent when a pass or link is taken back", () => {
  it("a sound on its way to a device that is cut off", async () => {
    const to = await bootLan();
    const cookie = await pair(to, "viewer");
    const long = makeWav(59, 48_000);
    const clip = await to.shop.app.inject({ method: "POST", url: `/api/builds/${to.build}/clips`, ...clipForm(long) });
    const { response, gone } = await unread(to, "secure", `/api/blobs/${clip.json().clip}`, cookie);
    const [device] = await to.list.devices();
    await to.list.cutOff(device?.id ?? "");
    response.resume();
    expect(await gone).toBe("cut");
  });

  it("a customer's record, at either door", async () => {
    for (const door of ["secure", "plain"] as const) {
      const to = await bootLan();
      const { link, token } = await to.list.makeLink(to.build, 7, "plain");
      // A record long enough not to fit into the pipe.
      const read = to.shop.deps.builds.read.bind(to.shop.deps.builds);
      const opened = await read(to.build, (build) => build);
      opened.build.name = "x".repeat(20_000_000);
      const { response, gone } = await unread(to, door, `/record/${token}`);
      await to.list.revokeLink(link.id);
      response.resume();
      expect(await gone, door).toBe("cut");
      expect((await ask(to, { door, path: `/record/${token}` })).code).toBe("unknown_link");
    }
  });
});
