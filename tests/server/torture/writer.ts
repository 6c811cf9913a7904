// A process that writes events as fast as it can and says each id only after the store has acknowledged it. Killed from outside.
import { v7 } from "uuid";
import { openShopData } from "../../../server/data-dir.ts";
import { canonicalJson } from "../../../server/store/canonical.ts";
import type { BenchEvent } from "../../../shared/events/events.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const [dir = "", build = ""] = process.argv.slice(2);
const data = await openShopData(dir);
let seq = await data.store.nextDeviceSeq("writer");
const make = (type: string, payload: unknown) =>
  ({
    id: v7(),
    build,
    at: new Date().toISOString(),
    device: "writer",
    deviceSeq: seq++,
    by: "writer",
    type,
    data: payload,
  }) as BenchEvent;

if ((await data.store.head(build)) === undefined)
  await data.store.append([make("build.opened", { name: "Killed", spec: DEMO_SPEC })]);
for (;;) {
  const clip = await data.blobs.put(Buffer.from(`sound ${seq} ${v7()}`), { max: 1000, what: "the clip" });
  const events = [
    make("utterance.heard", { text: `words ${seq}`, by: "voice", clip: clip.sha256 }),
    make("step.opened", { step: "bores" }),
  ];
  await data.store.append(events);
  // One write a line: the pipe takes it whole or not at all.
  process.stdout.write(`${events.map((event) => canonicalJson(event)).join("\n")}\n`);
}
