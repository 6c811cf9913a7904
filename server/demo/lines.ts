// One line of the day book in, what it does to the log out: clips are heard, pictures are read, the rest is entered as tapped.
import { readFile } from "node:fs/promises";
import { join } from "node:path";
import type { DemoPhoto } from "../../demo-data/photos.ts";
import type { Line } from "../../demo-data/scenario.ts";
import { type Heard, logPhoto, logUtterance, type Stamp, stampEvent } from "../../extractors/bench/index.ts";
import { contextOf } from "../../shared/build/index.ts";
import type { BenchEvent } from "../../shared/events/events.ts";
import type { Parsed } from "../../shared/events/reading.ts";
import { logEvents } from "../builds/log.ts";
import type { Deps } from "../deps.ts";
import { storePictures } from "../photos/pictures.ts";

export interface DemoJob {
  readonly deps: Deps;
  readonly stamp: Stamp;
  /** Folder of the demo's clips and pictures. */
  readonly dir: string;
  readonly photos: readonly DemoPhoto[];
}

export interface LineResult {
  readonly events: readonly BenchEvent[];
  readonly parsed?: Parsed;
  readonly clips: number;
  readonly photos: number;
}

const plain = (events: readonly BenchEvent[]): LineResult => ({ events, clips: 0, photos: 0 });

/** Do one line. What it gives is stored before this resolves. */
export async function doLine(line: Line, job: DemoJob): Promise<LineResult> {
  const { deps, stamp } = job;
  if ("clip" in line) return await hearClip(line.clip, job);
  if ("photos" in line) return await takePhotos(line.photos, job);
  if ("type" in line) return plain((await logParsed(job, undefined, line.type, { by: "typed" })).events);
  const event =
    "step" in line
      ? stampEvent(stamp, "step.opened", { step: line.step })
      : "close" in line
        ? stampEvent(stamp, "step.closed", { step: line.close })
        : "change" in line
          ? stampEvent(stamp, "part.changed", { part: line.change, place: line.place, what: line.what })
          : "zero" in line
            ? stampEvent(stamp, "instrument.zeroed", line.zero)
            : stampEvent(stamp, "instrument.kept", line.keep);
  await logEvents(deps, [event]);
  return plain([event]);
}

async function hearClip(id: string, job: DemoJob): Promise<LineResult> {
  const { deps, stamp } = job;
  const wav = await readFile(join(job.dir, "clips", `${id}.wav`));
  const { sha256 } = await deps.blobs.put(wav, { max: wav.length, what: "the clip" });
  const heard = await deps.builds.use(stamp.build, ({ build }) =>
    deps.hearing.hear(wav, contextOf(build, stamp.device), build.spec),
  );
  const { events, parsed } = await logParsed(job, heard.parsed, heard.heard, {
    by: "voice",
    clip: sha256,
    seconds: heard.seconds,
  });
  return { events, parsed, clips: 1, photos: 0 };
}

async function logParsed(job: DemoJob, known: Parsed | undefined, text: string, heard: Heard) {
  const { deps, stamp } = job;
  return await deps.builds.use(stamp.build, async ({ build }) => {
    const parsed = known ?? deps.parse(text, contextOf(build, stamp.device), build.spec);
    // The clip was handed in on purpose: it stays in the book even where nothing was made of it.
    const { events } = logUtterance({ parsed, build, stamp, heard, keep: true });
    await logEvents(deps, events);
    return { events, parsed };
  });
}

async function takePhotos(group: string, job: DemoJob): Promise<LineResult> {
  const { deps, stamp } = job;
  const events: BenchEvent[] = [];
  const rows = job.photos.filter((row) => row.group === group);
  for (const photo of rows) {
    const bytes = await readFile(join(job.dir, "photos", photo.file));
    const read = await deps.photos.read(bytes, { receivedAt: stamp.now() });
    await deps.blobs.put(bytes, { max: bytes.length, what: "the picture" });
    await storePictures(deps.derivedDir, read);
    const logged = await deps.builds.use(stamp.build, async ({ build }) => {
      const made = logPhoto({ photo: read.facts, said: photo, build, stamp });
      await logEvents(deps, made);
      return made;
    });
    events.push(...logged);
  }
  return { events, clips: 0, photos: rows.length };
}
