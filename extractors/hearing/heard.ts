// Passes and their vote in, what the ear answers out.
import { type Levels, levelsOf, trebleSnr } from "./audio/level.ts";
import { loneBlows, loudBlows, withoutBlows } from "./audio/lone-blows.ts";
import { onScale } from "./audio/sound.ts";
import { strangenessOf } from "./doubt/evidence.ts";
import { isElsewhere } from "./doubt/pass-words.ts";
import { NOISY_SNR, UNUSUAL } from "./doubt/verdict.ts";
import type { Pass, Vote } from "./doubt/vote.ts";
import { isPhoneWord } from "./text.ts";
import type { Doubt, Heard, HeardVerdict } from "./types.ts";
import { plainWord } from "./words/plain-word.ts";

/** An utterance, cut to what stands above the noise, without the blows that stand alone in it. */
export interface Clip {
  readonly pcm: Float32Array;
  readonly rate: number;
  readonly levels: Levels;
  /** Whether there were such blows. */
  readonly hammered: boolean;
  /** Whether noise lies under it, and no blow was struck, alone or amid what was said. */
  readonly inNoise: boolean;
  /** Signal-to-noise ratio with the treble lifted, dB; measured once, when it is asked for. */
  readonly treble: () => number;
  /** The sound at the recogniser's rate on a frequency scale, made once a scale. */
  readonly at: (warp: number) => Float32Array;
  /** Of the whole utterance. */
  readonly seconds: number;
}

/** The part of a clip that is neither silence nor a blow alone, with `margin` seconds around it, and its levels. */
export function clipOf(said: Float32Array, rate: number, margin?: number): Clip {
  const asSaid = levelsOf(said, rate, margin);
  const blows = loudBlows(said, rate, asSaid);
  const alone = loneBlows(said, rate, asSaid, blows);
  const hammered = alone.length > 0;
  const pcm = hammered ? withoutBlows(said, rate, alone, asSaid.noise) : said;
  const levels = hammered ? levelsOf(pcm, rate, margin) : asSaid;
  const cut = { pcm: pcm.subarray(levels.from, levels.to), rate };
  const sounds = new Map<number, Float32Array>();
  const at = (warp: number) => {
    const sound = sounds.get(warp) ?? onScale(cut, warp);
    sounds.set(warp, sound);
    return sound;
  };
  let lifted: number | undefined;
  const treble = () => {
    lifted ??= trebleSnr(pcm, rate);
    return lifted;
  };
  return {
    ...cut,
    levels,
    hammered,
    inNoise: levels.snr < NOISY_SNR && blows.length === 0,
    treble,
    at,
    seconds: pcm.length / rate,
  };
}

/** Whether neither noise nor a blow made what was said dearer. */
export const isQuiet = ({ levels, hammered }: Pick<Clip, "levels" | "hammered">): boolean => levels.snr >= NOISY_SNR && !hammered;

/** Nothing was said, or nothing that could be made out. */
export const nothing = (seconds: number, snr: number, warp: number): Heard => ({
  text: "",
  seconds,
  words: [],
  doubt: { words: [], others: [], agreement: 0, strangeness: 0 },
  snr,
  verdict: "nothing",
  warp,
});

/** First sight: the words of one decode, in doubt by their nature. */
export const firstSight = ({ text, warp }: Pass, { seconds, levels }: Clip): Heard => ({
  ...nothing(seconds, levels.snr, warp),
  text,
  verdict: "doubtful",
});

/** First sight from the first of several looks, where that fits and would count; undefined where another scale may show better. */
export const glimpse = (pass: Pass, clip: Clip): Heard | undefined =>
  pass.plain && !isElsewhere(pass) && strangenessOf(pass.decoded) <= UNUSUAL ? firstSight(pass, clip) : undefined;

/** Indexes of the winner's words that some voter heard otherwise, by comparing words at the same moment. */
function disputed({ winner, voters }: Vote): number[] {
  const words = winner.decoded.words;
  return words.flatMap((word, index) => {
    const middle = ((word.start + word.end) / 2) * winner.warp;
    const same = voters.every((pass) =>
      pass.decoded.words.some(
        (other) =>
          plainWord(other.word) === plainWord(word.word) &&
          other.start * pass.warp <= middle + 0.1 &&
          other.end * pass.warp >= middle - 0.1,
      ),
    );
    return same ? [] : [index];
  });
}

export function doubtOf(vote: Vote, strangeness: number): Doubt {
  const { winner, voters, agreement } = vote;
  const others = [...new Set(voters.filter((pass) => pass.meaning !== winner.meaning).map((pass) => pass.text))];
  return { words: disputed(vote), others, agreement, strangeness: Math.round(strangeness) };
}

/** What was heard, its words with their times in the utterance. */
export function heardOf({ winner, agreement }: Vote, doubt: Doubt, verdict: HeardVerdict, clip: Clip): Heard {
  const { snr, from } = clip.levels;
  if (verdict === "nothing" || verdict === "too_loud") return { ...nothing(clip.seconds, snr, winner.warp), doubt, verdict };
  const offset = from / clip.rate;
  const words = winner.decoded.words
    .filter(({ word }) => !isPhoneWord(word))
    .map(({ word, start, end }, index) => ({
      word: plainWord(word),
      start: offset + start * winner.warp,
      end: offset + end * winner.warp,
      trust: doubt.words.includes(index) ? agreement / 2 : agreement,
    }));
  const warp = Math.round(winner.warp * 1000) / 1000;
  return { text: winner.text, seconds: clip.seconds, words, doubt, snr, verdict, warp };
}
