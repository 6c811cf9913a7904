// The ear, the same in Node and browser: one network, one exact search over all sentences, one calibrated doubt.
import { AcousticNetwork, NETWORK_RATE } from "./acoustic/network.ts";
import type { Posteriors } from "./acoustic/posteriors.ts";
import { resample } from "./audio/resample.ts";
import { chanceOf, verdictOf } from "./doubt.ts";
import { grammarsFor } from "./grammar/index.ts";
import { freeSpeech } from "./search/free.ts";
import { GRAMMAR_SCALE, graphOf } from "./search/graph.ts";
import { bestMeanings } from "./search/meanings.ts";
import { Search } from "./search/search.ts";
import { isFreeNote } from "./text.ts";
import type { Evidence, Heard, HearOptions } from "./types.ts";

/** Searches are kept for this many grammars: what is open goes to and fro between a few. */
const KEPT = 12;
/** Sentences that are read for their meaning. */
const SENTENCES = 24;
/** Frames of the word "note": 0.4 s. */
const NOTE_FRAMES = 10;
/** A lead beyond this tells no more. */
const FAR = 12;

export class Ear {
  readonly #network: AcousticNetwork;
  readonly #searches = new Map<string, Search>();

  constructor(network: AcousticNetwork) {
    this.#network = network;
  }

  /** Load the network; see `AcousticNetwork.open`. */
  static async open(model: Uint8Array, runtime?: string): Promise<Ear> {
    return new Ear(await AcousticNetwork.open(model, runtime));
  }

  /** Make the grammars of what is open ready before anything is said. */
  prepare({ spec, context }: HearOptions): void {
    for (const { key, start } of grammarsFor(spec, context)) this.#searchFor(key, start);
  }

  #searchFor(key: string, start: () => Parameters<typeof graphOf>[0]): Search {
    const search = this.#searches.get(key) ?? new Search(graphOf(start()));
    // The most lately used last.
    this.#searches.delete(key);
    this.#searches.set(key, search);
    for (const [oldest] of this.#searches) {
      if (this.#searches.size <= KEPT) break;
      this.#searches.delete(oldest);
    }
    return search;
  }

  /** Hear one utterance: mono samples -1..1 at `rate` a second. */
  async hear(pcm: Float32Array, rate: number, options: HearOptions): Promise<Heard> {
    const seconds = pcm.length / rate;
    if (seconds < SHORTEST_SECONDS) return { ...NOTHING, seconds };
    const posteriors = await this.#network.posteriors(resample(pcm, rate, NETWORK_RATE));
    return { ...this.weigh(posteriors, options), seconds };
  }

  /** What posteriors come to in a context. */
  weigh(posteriors: Posteriors, options: HearOptions): Omit<Heard, "seconds"> {
    const { best, others, evidence } = this.rank(posteriors, options);
    if (best === undefined) return NOTHING;
    const chance = chanceOf(evidence);
    const verdict = verdictOf(chance);
    return { text: verdict === "nothing" ? "" : best, verdict, chance, others, evidence };
  }

  /** The likeliest sentence, those that mean something else, and what speaks for it; no sentence where nobody spoke. */
  rank(posteriors: Posteriors, { spec, context }: HearOptions): Ranked {
    const free = freeSpeech(posteriors);
    if (free.phones === 0) return UNHEARD;
    const sentences = grammarsFor(spec, context).flatMap(({ key, share, start }) =>
      this.#searchFor(key, start)
        .sentences(posteriors, SENTENCES)
        .map((sentence) => ({ ...sentence, score: sentence.score + Math.log(share) * GRAMMAR_SCALE })),
    );
    const [best, ...rest] = bestMeanings(sentences, context, spec);
    if (best === undefined) return UNHEARD;
    const evidence: Evidence = {
      lead: Math.min(FAR, best.score - (rest[0]?.score ?? Number.NEGATIVE_INFINITY)),
      // Any speech fits what follows "note" as well as it fits itself: all that is off is off in that word.
      gap: (free.score - best.sounds) / (isFreeNote(best) ? Math.min(NOTE_FRAMES, free.frames) : free.frames),
      haze: -free.score / free.frames,
      phones: free.phones,
    };
    const near = rest.filter(({ score }) => score > best.score - FAR).slice(0, 4);
    return { best: best.text, others: near.map(({ text }) => text), evidence };
  }

  async close(): Promise<void> {
    await this.#network.close();
  }
}

/** Less than the network looks at around a frame. */
const SHORTEST_SECONDS = 0.15;

interface Ranked {
  readonly best: string | undefined;
  readonly others: readonly string[];
  readonly evidence: Evidence;
}

const UNHEARD: Ranked = { best: undefined, others: [], evidence: { lead: 0, gap: 0, haze: 0, phones: 0 } };
const NOTHING: Omit<Heard, "seconds"> = { text: "", verdict: "nothing", chance: 0, others: [], evidence: UNHEARD.evidence };
