// A shop in a process of its own that is killed where it is told to. Arguments: its folder, a picture, the moment, the event's id.
// It prints the build's id as soon as that is stored, and "acknowledged" once the upload was answered.
import { readFile } from "node:fs/promises";
import { openPhotoReader } from "../../../extractors/photo/index.ts";
import { loopbackAccess } from "../../../server/access/access.ts";
import { buildApp } from "../../../server/app.ts";
import { Builds } from "../../../server/builds/builds.ts";
import { LiveBus } from "../../../server/builds/live-bus.ts";
import { openShopData } from "../../../server/data-dir.ts";
import type { Deps } from "../../../server/deps.ts";
import { Evaluator } from "../../../shared/rules/index.ts";

type Moment = "before_blob" | "between_blob_and_event" | "after_event" | "never";

const [dir = "", picture = "", moment = "never", eventId = ""] = process.argv.slice(2) as [string, string, Moment, string];
const die = () => process.kill(process.pid, "SIGKILL");
const data = await openShopData(dir);
const reader = openPhotoReader();
let armed = false;
const store = Object.create(data.store, {
  append: {
    value: async (...args: Parameters<typeof data.store.append>) => {
      if (armed && moment === "between_blob_and_event") die();
      const appended = await data.store.append(...args);
      if (armed && moment === "after_event") die();
      return appended;
    },
  },
}) as typeof data.store;
const deps: Deps = {
  shop: data.shop,
  store,
  blobs: data.blobs,
  builds: new Builds(data.store, (build) => new Evaluator(build)),
  live: new LiveBus(),
  access: loopbackAccess,
  hearing: { state: () => "ready", hear: () => Promise.reject(new Error("not asked")) },
  photos: {
    read: async (...args) => {
      const read = await reader.read(...args);
      if (armed && moment === "before_blob") die();
      return read;
    },
  },
  parse: (text) => ({ text, readings: [], questions: [], commands: [], notes: [], unread: [] }),
  derivedDir: `${dir}/derived`,
};
const app = await buildApp(deps);
const opened = await app.inject({ method: "POST", url: "/api/builds", payload: { name: "Mill engine", demo: true } });
const { id } = opened.json() as { id: string };
process.stdout.write(`${id}\n`);
armed = true;
const form = new FormData();
form.append("id", eventId);
form.append("device", "phone-1");
form.append("photo", new Blob([await readFile(picture)]), "p.jpg");
const body = new Response(form);
const headers = { "content-type": body.headers.get("content-type") ?? "" };
const answer = await app.inject({
  method: "POST",
  url: `/api/builds/${id}/photos`,
  payload: Buffer.from(await body.arrayBuffer()),
  headers,
});
process.stdout.write(answer.statusCode === 200 ? "acknowledged\n" : `${answer.body}\n`);
await app.close();
await data.close();
