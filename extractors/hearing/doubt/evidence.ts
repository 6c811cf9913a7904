// A winning decode in, what speaks against it out: words too dear, sound that no word explains, words too short to be said.
import { blowsIn } from "../audio/blows.ts";
import { frameLevels, type Levels } from "../audio/level.ts";
import type { Decoded, DecodedWord } from "../engine/decoder.ts";
import type { Clip } from "../heard.ts";
import { isPhoneWord } from "../text.ts";
import { saidAs } from "../words/dictionary.ts";
import { plainWord } from "../words/plain-word.ts";
import { isOnAny, type Struck, struckBy } from "./struck.ts";

export interface Evidence {
  /** Cost a second of the words themselves, natural-log units. */
  readonly strangeness: number;
  /** Seconds of loud sound outside every word. */
  readonly unexplained: number;
  /** Whether blows were struck beside the words, and whether one may have been taken for a word. */
  readonly struck: Struck;
  /** How the words fit that have more than one phone, each by itself; the others have no say. */
  readonly words: readonly WordFit[];
}

export interface WordFit {
  readonly word: string;
  /** Seconds a phone. */
  readonly phone: number;
  /** Cost a second, for its kind. */
  readonly cost: number;
}

/**
 * Words that cost more than their neighbours in every voice, and how many times as much: mostly a "t" that is hardly said.
 * Measured on six synthetic voices and one person's numbers, forced to the words that were said.
 */
const USUAL_COST: Readonly<Record<string, number>> = {
  metres: 1.6,
  out: 1.5,
  at: 1.5,
  the: 1.5,
  nut: 1.45,
  axial: 1.45,
  not: 1.45,
  for: 1.4,
  inch: 1.4,
  eight: 1.25,
};

/**
 * The recogniser counts costs from the best sound that any sentence may have just then: the more sentences a grammar has, the dearer are
 * the words of all of them. With what it has now they cost so much more than when the limits on them were set: 1.03 times (the median of
 * 71 sentences in four tuning voices that were heard alike in both), and since values of every kind may be hedged 1.027 times that (of
 * 748 in nine).
 */
const DEARER_SINCE = 1.03 * 1.027;

const FRAME_SECONDS = 0.02;
/** A word's edges are not exact, and a final consonant rings on. */
const EDGE_SECONDS = 0.12;

function loudFrames(pcm: Float32Array, rate: number, { noise, snr }: Levels): readonly number[] {
  const size = Math.round(rate * FRAME_SECONDS);
  const edge = noise + Math.max(6, snr * 0.6);
  return frameLevels(pcm, size).flatMap((level, frame) => (level > edge ? [((frame + 0.5) * size) / rate] : []));
}

/** Phones of the shortest way to say a word; 1 for a word without a line. */
function phonesOf(word: string): number {
  const ways = saidAs(word).map((way) => way.length);
  return ways.length === 0 ? 1 : Math.min(...ways);
}

/** What follows "note" is free speech: it explains sound, and says nothing for or against the words before it. */
const ownWords = ({ words }: Decoded) => words.filter(({ word }) => !isPhoneWord(word));

/** Cost a second of the words themselves; infinite when there are none. */
export function strangenessOf(decoded: Decoded): number {
  const own = ownWords(decoded);
  const spoken = own.reduce((sum, { start, end }) => sum + end - start, 0);
  return spoken === 0 ? Number.POSITIVE_INFINITY : own.reduce((sum, word) => sum + word.cost, 0) / spoken / DEARER_SINCE;
}

const fitOf = ({ word: said, start, end, cost }: DecodedWord): WordFit => {
  const word = plainWord(said);
  const spoken = Math.max(FRAME_SECONDS, end - start);
  return { word, phone: spoken / phonesOf(word), cost: cost / spoken / DEARER_SINCE / (USUAL_COST[word] ?? 1) };
};

/** `pcm` is the sound as it was decoded, so that its times are the words' times. */
export function evidenceOf(
  decoded: Decoded,
  pcm: Float32Array,
  rate: number,
  { levels, hammered }: Pick<Clip, "levels" | "hammered">,
): Evidence {
  const blows = blowsIn(pcm, rate, levels.noise + levels.snr);
  const outside = loudFrames(pcm, rate, levels).filter((at) => !isOnAny(decoded.words, at, EDGE_SECONDS));
  const longer = ownWords(decoded).filter(({ word }) => phonesOf(word) > 1);
  return {
    strangeness: strangenessOf(decoded),
    unexplained: outside.length * FRAME_SECONDS,
    struck: struckBy({ blows, hammered }, decoded, pcm, rate, levels),
    words: longer.map(fitOf),
  };
}
