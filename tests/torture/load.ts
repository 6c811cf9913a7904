// What phones and benches send: batches of events, typed words, clips, photos. What was not answered is sent again under the same ids.
import { createHash } from "node:crypto";
import sharp from "sharp";
import { v7 } from "uuid";
import type { Ledger } from "./ledger.ts";
import { sleep } from "./shop-process.ts";

interface Parcel {
  send(url: string): Promise<void>;
}

/** Between two requests of one sender. */
const PAUSE_MS = 15;
export type Random = () => number;

export class Load {
  readonly ledger: Ledger;
  /** Sent before a kill and never answered. */
  readonly unanswered: Parcel[] = [];
  /** Answers that were neither success nor silence: none is expected. */
  readonly refused: string[] = [];
  requests = 0;
  sentAgain = 0;
  build = "";
  private readonly random: Random;
  private made = 0;
  private deviceSeq = 0;

  constructor(ledger: Ledger, random: Random) {
    this.ledger = ledger;
    this.random = random;
  }

  /** Send from `senders` devices at once until `until` says so or the shop is gone. */
  async run(url: string, senders: number, until: () => boolean): Promise<void> {
    await Promise.all(Array.from({ length: senders }, () => this.sender(url, until)));
  }

  private async sender(url: string, until: () => boolean): Promise<void> {
    while (!until()) {
      const again = this.unanswered.shift();
      if (again !== undefined) this.sentAgain += 1;
      const parcel = again ?? (await this.make());
      try {
        await parcel.send(url);
        this.requests += 1;
      } catch (error) {
        if (error instanceof Refused) {
          this.refused.push(error.message);
          continue;
        }
        // No answer: whether it was stored is not known, so it goes again after the next start.
        this.unanswered.push(parcel);
        return;
      }
      await sleep(PAUSE_MS);
    }
  }

  private async make(): Promise<Parcel> {
    this.made += 1;
    const mark = `mark-${this.made}-${Math.floor(this.random() * 1e9).toString(36)}`;
    const kind = this.random();
    if (this.build === "" || this.made % 400 === 0) return this.opening();
    if (kind < 0.7) return this.events(mark, 1 + Math.floor(this.random() * 8));
    if (kind < 0.82) return this.words(mark);
    return kind < 0.95 ? this.clip(mark) : await this.photo(mark);
  }

  private event(build: string, type: string, data: unknown) {
    return {
      id: v7(),
      build,
      at: new Date().toISOString(),
      device: "torture",
      deviceSeq: this.deviceSeq++,
      by: "torture",
      type,
      data,
    };
  }

  private opening(): Parcel {
    const body = { id: v7(), name: `Build ${this.made}`, demo: true, device: "torture", by: "torture" };
    return {
      send: async (url) => {
        // Opened before and not answered: the second opening is refused by name, and the build is there.
        const answer = await call(`${url}/api/builds`, body, ["build_exists"]);
        this.build = body.id;
        void answer;
      },
    };
  }

  private events(mark: string, count: number, first: readonly unknown[] = []): Parcel {
    const build = this.build;
    const said = Array.from({ length: count }, (_, i) =>
      this.event(build, "utterance.heard", { text: `${mark}-${i}`, by: "typed" }),
    );
    const events = [...(first as typeof said), ...said];
    return { send: (url) => this.post(url, build, events) };
  }

  private async post(url: string, build: string, events: readonly { id: string }[]): Promise<void> {
    const { stored } = (await call(`${url}/api/builds/${build}/events`, { events })) as {
      stored: { id: string; seq: number; hash: string }[];
    };
    stored.forEach(({ seq, hash }, i) => {
      const event = events[i];
      if (event !== undefined) this.ledger.acknowledge(build, seq, hash, event);
    });
  }

  private words(mark: string): Parcel {
    const build = this.build;
    const body = { id: v7(), text: `main one, two point oh oh oh oh ${mark}`, device: "torture-words" };
    return { send: async (url) => this.takeEvents(build, await call(`${url}/api/builds/${build}/utterances`, body)) };
  }

  private takeEvents(build: string, answer: unknown): void {
    const { events } = answer as { events: { seq: number; hash: string; event: { id: string } }[] };
    for (const { seq, hash, event } of events) this.ledger.acknowledge(build, seq, hash, event);
  }

  private clip(mark: string): Parcel {
    const build = this.build;
    const bytes = wav(mark);
    const sha256 = createHash("sha256").update(bytes).digest("hex");
    const events = [this.event(build, "utterance.heard", { text: mark, by: "voice", clip: sha256 })];
    return {
      send: async (url) => {
        await ask(`${url}/api/blobs/${sha256}`, {
          method: "PUT",
          headers: { "content-type": "application/octet-stream" },
          body: bytes,
        });
        this.ledger.blobs.add(sha256);
        await this.post(url, build, events);
      },
    };
  }

  private async photo(mark: string): Promise<Parcel> {
    const build = this.build;
    const shade = Math.floor(this.random() * 200);
    const noise = Buffer.from(mark.repeat(2000)).subarray(0, 96 * 64 * 3);
    const bytes = await sharp(noise, { raw: { width: 96, height: 64, channels: 3 } })
      .tint({ r: shade, g: 90, b: 60 })
      .jpeg()
      .toBuffer();
    const id = v7();
    return {
      send: async (url) => {
        const form = new FormData();
        for (const [name, value] of Object.entries({ id, device: "torture-photos", statement: mark })) form.append(name, value);
        form.append("photo", new Blob([new Uint8Array(bytes)], { type: "image/jpeg" }), "photo.jpg");
        const answer = await ask(`${url}/api/builds/${build}/photos`, { method: "POST", body: form });
        this.takeEvents(build, answer);
        this.ledger.blobs.add(createHash("sha256").update(bytes).digest("hex"));
      },
    };
  }
}

/** The shop answered and said no. */
class Refused extends Error {}

async function ask(url: string, init: RequestInit, fine: readonly string[] = []): Promise<unknown> {
  const answer = await fetch(url, { ...init, signal: AbortSignal.timeout(60_000) });
  const text = await answer.text();
  if (answer.ok || fine.some((code) => text.includes(`"${code}"`))) return JSON.parse(text);
  // A shop that is stopping says so: to be sent again, as if there had been no answer.
  if (answer.status === 503) throw new Error(text);
  throw new Refused(
    `${init.method ?? "GET"} ${new URL(url).pathname.replace(/[0-9a-f-]{36}|[0-9a-f]{64}/g, "ID")}: ${answer.status} ${text}`,
  );
}

const call = (url: string, body: unknown, fine: readonly string[] = []) =>
  ask(url, { method: "POST", headers: { "content-type": "application/json" }, body: JSON.stringify(body) }, fine);

/** A second of 8 kHz sound that no other parcel has: the mark's letters, over and over. */
function wav(mark: string): Buffer<ArrayBuffer> {
  const bytes = Buffer.alloc(44 + 8000);
  bytes.write("RIFF", 0, "latin1");
  bytes.writeUInt32LE(36 + 8000, 4);
  bytes.write("WAVEfmt ", 8, "latin1");
  for (const [at, value] of [
    [16, 16],
    [24, 8000],
    [28, 16000],
    [40, 8000],
  ] as const)
    bytes.writeUInt32LE(value, at);
  for (const [at, value] of [
    [20, 1],
    [22, 1],
    [32, 2],
    [34, 16],
  ] as const)
    bytes.writeUInt16LE(value, at);
  bytes.write("data", 36, "latin1");
  bytes.fill(mark, 44);
  return bytes;
}
