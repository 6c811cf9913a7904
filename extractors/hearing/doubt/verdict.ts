// Votes, evidence and the room's noise in, one verdict out. The thresholds were tuned on synthetic voices (see the benchmark).
import { isFreeNote } from "../text.ts";
import type { HeardVerdict } from "../types.ts";
import { isNumberWord } from "../words/numbers.ts";
import { type Evidence, strangenessOf } from "./evidence.ts";
import { isBlurred, isBreathLong, isHomophone, isHushed, isReadOut, isSlippery, mayHaveSlipped } from "./fragile.ts";
import { oddFrom, oddIfSlippery, type Setting } from "./odd.ts";
import { isOddCommand } from "./odd-command.ts";
import { ownWords } from "./pass-words.ts";
import type { Struck } from "./struck.ts";
import { type Pass, saidWords, type Vote } from "./vote.ts";

/** Below this the words cannot be trusted whatever they are. */
export const LOUDEST_SNR = 8;
/**
 * Below this ratio with the treble lifted, dB, hiss may hide consonants, and a figure must lead the next best. Where it lies below
 * the second, or that of the whole sound below the third, every figure is asked about: of the tuning voices' figures in pink noise
 * at 5 dB, whose whole ratio was 10 to 14 dB as it is measured here, one in forty was taken for another by all passes, and led; at
 * 10 dB (15 to 19) those that hardly led were.
 */
const HISSY = 13;
const HISSING = 7;
const HISSY_AND_LOUD = 14.5;
/**
 * Of the tuning voices' figures in pink noise at 10 dB those that were taken for another by all passes led by 18 at most at the
 * winner's scale, and by 12 at most at the least of three; the right ones mostly by 25 and more.
 */
const LEAST_LEAD_IN_HISS = 15;
/**
 * The same limit, with the treble lifted, for a word that another number's differs from in its hushed consonants alone. Of three
 * tuning voices "sixteen" was heard for "fifteen" and "sixty" for "fifty" by all passes, with leads up to 33, at 12 to 14 dB.
 */
const HISSY_IF_HUSHED = 17;
/**
 * A blow is a hush as well, wherever it falls: of nine tuning voices' sentences amid blows at 10 dB "sixteen" was heard once for
 * "fifteen", by all passes and far ahead; no figure was with this lead for those words, which four right ones of 63 did not have.
 */
const LEAST_LEAD_IF_STRUCK = 40;
/**
 * Below this ratio, dB, noise has a say: as it is measured here, what is said 20 dB above pink noise or hum has 24 to 29, and 10 dB above
 * it 14 to 19. The voice is not learnt from it (of 120 sentences in reporting voices in hum at 10 dB two were wrong where it was, one
 * where it was not; of 747 in tuning voices two and one), and what noise makes of others is asked about: of nine tuning voices' sentences
 * under hum at 5 dB two "nut B" were "nut A", by a lead of 15 and more; at 10 dB "zero" was heard four times, each time for "two", and led
 * by 40 in one.
 */
export const NOISY_SNR = 22;
/**
 * For a read-out and for what is easily taken for another number, in quiet too: no band catches the slip. Of ten tuning voices' figures
 * that all passes heard alike in quiet two in 498 were wrong: "thirty" for "thirteen" led by 1, "a thou" for "two thou" by 24; of the
 * right slippery ones four led by less than this. Of strangers two demo read-outs were wrong ("eight six" for "eight eight"), and did
 * not lead at all at one scale; of 42 figures joined from recordings of people none was lost by it.
 */
const LEAST_LEAD_SLIPPERY = 10;
/** Above: other talk that the grammar was bent to; when all passes agree, a little further. */
const STRANGE = 400;
const STRANGE_AGREED = 460;
/**
 * For a command of a word or two, alone and in full agreement: so short a sound leaves the recogniser little to go by, and
 * costs more a second in every voice ("wrong", "next", "done": 400 to 600 in tuning voices whose sentences cost about 300).
 */
const STRANGE_COMMAND = 580;
const BRIEF_COMMAND = 3;
/** Below this there is no speech in the clip, only the room. */
export const FLATTEST_SNR = 4;
/**
 * Where less of the loud frames is a voice, nobody speaks. Of nine tuning voices' sentences and commands the least was 0.38 in quiet, 0.31
 * in pink noise and 0.29 under blows at 10 dB, of 150 recordings of people 0.44; of recorded hammering in a smithy, an air hammer, a saw
 * and things dropped 0.11 at most. In noise as loud as pink or hum at 5 dB one command in seventy had less.
 */
export const LEAST_VOICED = 0.15;
/** A value said alone costs more a second, and none of the tuning voices' was heard wrong by all passes. */
export const A_WORD_OR_TWO = 2;
const BRIEF_ALLOWANCE = 50;
/** For two or three words about something that is not open, and for a place said alone: of nine tuning voices' right ones the dearest cost 312. */
const ODD_IF_BRIEF = 320;
/** Above this the sentence is looked for once more at another scale. */
export const UNUSUAL = 320;
/**
 * A long sentence that all passes agree on is asked about where a short one would be let go: of a stranger. In a voice that is known it
 * is let go sooner than a short one: of the tuning voices' 250 sentences of talk about the trade 45 were asked about that cost more
 * than that, of their 870 sentences for the book two.
 */
const LONG_SENTENCE = 4;
const LONG_ALLOWANCE = 95;
const UNEXPLAINED_NOTHING = 0.6;
const UNEXPLAINED_DOUBT = 0.25;
/**
 * Words put in where nothing was said are pressed into a few frames that do not fit them. On tuning voices about 2 % of the
 * right sentences and a fifth or more of the wrong ones lie beyond each of the last two; the seconds a phone are not measured
 * so, but set a little above the three frames that the model's phones take at least. Of 23 beyond both three were said.
 */
const SHORTEST_PHONE = 0.036;
const DEAREST_WORD = 680;
const MOST_UNEVEN = 2.15;
/** A sentence that fits better than this is measured as if it did not: the better a voice is fitted, the more one dear word stands out. */
const LEAST_USUAL = 170;
const MAJORITY = 0.5;
/**
 * A word that is no number ("oil", "nut") may be said otherwise than the dictionary has it, and is dear then; what was put in
 * where nothing was said does not lead the sentence without it by so much. Where the model is fitted to the voice the same goes for
 * numbers, and for teens and bare tens that fit badly: of ten tuning voices' fourteen right ones ten led by as much,
 * and of two wrong ones none (a read-out that fits badly led by 38 and was wrong: no lead counts there).
 */
const LEAST_LEAD_PRESSED = 25;

/**
 * What fits badly in a voice that is known, or is not heard alike by one pass in a few, mostly is a short sentence of which little can be
 * fitted ("a thou and a half"), or a teen that slips at one scale. Of the tuning voices' sentences about what is open that all passes
 * heard alike, and that fit as badly, sixteen right ones led by this and more, and those that were wrong by 38 at most; of those
 * that one pass heard otherwise two right ones led as a pressed word must, and a wrong one by 9.
 */
const LEAST_LEAD_STRANGE = 50;
/** How far above the limit that is, cost a second. */
const STRANGER = 100;
const NEARLY_ALL = 0.66;

/** Whether a pass heard a command of a word or two and nothing else. */
export const isBriefCommand = ({ command, decoded }: Pass) => command && decoded.words.length <= BRIEF_COMMAND;

/** Strangeness above which a pass is no speech for the book, whatever others say. */
export const tooStrange = (pass: Pass): number => (isBriefCommand(pass) ? STRANGE_COMMAND : STRANGE_AGREED);

/** Noise that may have hidden a consonant that tells one figure from another: none, some, or so much that no lead counts. */
export type Hiss = "none" | "some" | "loud";

/** `snr` is the signal-to-noise ratio and `treble` the same with the treble lifted, dB. */
export function hissIn(snr: number, treble: number): Hiss {
  if (treble >= HISSY) return "none";
  return treble < HISSING || snr < HISSY_AND_LOUD ? "loud" : "some";
}

/** How a word is pressed into sound that does not fit it: into too few frames, at too high a cost, or both. */
interface Pressed {
  readonly word: string;
  readonly short: boolean;
  readonly dear: boolean;
}

function pressedWords({ words, strangeness }: Evidence): readonly Pressed[] {
  const dearest = Math.min(DEAREST_WORD, Math.max(LEAST_USUAL, strangeness) * MOST_UNEVEN);
  return words
    .map(({ word, phone, cost }) => ({ word, short: phone < SHORTEST_PHONE, dear: cost > dearest }))
    .filter(({ short, dear }) => short || dear);
}

/** What is found of a winner: `pressed` is right where it leads clearly, `strange` where it leads far, and both are doubtful else. */
export type Judgement = HeardVerdict | "pressed" | "strange";

type Believed = "ok" | "pressed" | "strange";
/** Whether a winner counts, or does with the lead that it must have. */
export const isBelieved = (judged: Judgement): judged is Believed =>
  judged === "ok" || judged === "pressed" || judged === "strange";

/** How strange a sentence of these words may be, cost a second. */
function limitsOf(words: readonly string[], setting: Setting) {
  const { fitted = false, elsewhere = false } = setting;
  const usual = oddFrom(setting) + (words.length <= A_WORD_OR_TWO ? BRIEF_ALLOWANCE : 0);
  const fair = elsewhere && words.length < LONG_SENTENCE ? Math.min(usual, ODD_IF_BRIEF) : usual;
  const limit = isSlippery(words) ? Math.min(fair, oddIfSlippery(setting)) : fair;
  const known = fitted && !isReadOut(words);
  return {
    fair,
    limit,
    /** In a voice that is known a lead speaks for what slips; none does for a read-out. */
    most: known ? fair : limit,
    /** Of what is open it speaks also where one pass does not agree, or the sentence fits badly. */
    speaks: known && !elsewhere,
  };
}

/** Whether a look is stranger than anything that counts: no check would change that. */
export function isHopeless(look: Pass, setting: Setting): boolean {
  if (isBriefCommand(look)) return false;
  const { most, speaks } = limitsOf(saidWords(look), setting);
  return strangenessOf(look.decoded) > most + (speaks ? STRANGER : 0);
}

/**
 * Whether the winner may count still, if the next `yet` passes agree with it; `look` is the pass of the whole grammar that the checks are
 * of. A stranger's may always: a pass that dissents may turn out to be at a wrong scale for the voice.
 */
export function mayStillCount({ winner, agreement, voters }: Vote, look: Pass, setting: Setting, yet: number): boolean {
  if (setting.fitted !== true) return true;
  if (agreement === 1) return isFreeNote(winner) || !isHopeless(look, setting);
  if (isBriefCommand(winner) || isFreeNote(winner)) return false;
  const { fair, speaks } = limitsOf(saidWords(winner), setting);
  const share = (agreement * voters.length + yet) / (voters.length + yet);
  return speaks && share >= NEARLY_ALL && strangenessOf(look.decoded) <= fair;
}

const isTogether = ({ agreement, voters }: Vote) => agreement === 1 && voters.length >= 2;

/** Strangeness above which it is other talk that the grammar was bent to. */
function talkFrom(vote: Vote, { fitted = false }: Setting): number {
  const long = vote.winner.decoded.words.length >= LONG_SENTENCE;
  if (!isTogether(vote) || (long && fitted)) return STRANGE;
  return tooStrange(vote.winner) + (long ? LONG_ALLOWANCE : 0);
}

/**
 * A sentence under blows that fits badly is the blows themselves, sooner where passes do not agree: blows alone were a sentence to ask
 * about in 19 of 60 clips of them, and are in three; of 188 right sentences of tuning voices under blows as loud as speech, which wait
 * for a yes then, ten are lost.
 */
const underBlows = (vote: Vote, { strangeness }: Evidence, setting: Setting): HeardVerdict =>
  strangeness > (isTogether(vote) ? STRANGE : oddFrom(setting)) ? "nothing" : "doubtful";

/** A brief command that fits as such commands do is done, unless talk was bent to it. */
const ofBrief = (words: readonly string[], { strangeness }: Evidence, { fitted = false }: Setting): HeardVerdict =>
  fitted && isOddCommand(words, strangeness) ? "doubtful" : "ok";

/** How far to believe the winner of `vote`. */
export function judge(vote: Vote | undefined, evidence: Evidence | undefined, snr: number, setting: Setting = {}): Judgement {
  if (vote === undefined || evidence === undefined) return "nothing";
  const together = isTogether(vote);
  if (evidence.strangeness > talkFrom(vote, setting) || evidence.unexplained > UNEXPLAINED_NOTHING) return "nothing";
  if (snr < LOUDEST_SNR) return "too_loud";
  const words = saidWords(vote.winner);
  // Of a free note one word alone is judged, and of a brief command little more: that all agree must do.
  if (together && isFreeNote(vote.winner)) return "ok";
  if (evidence.struck === "on_a_word") return underBlows(vote, evidence, setting);
  const brief = together && isBriefCommand(vote.winner) && evidence.unexplained <= UNEXPLAINED_DOUBT;
  // A place fits as a sentence does: "rod two" that hardly fits was "wrong".
  if (brief && (!words.some(isNumberWord) || evidence.strangeness <= ODD_IF_BRIEF)) return ofBrief(words, evidence, setting);
  const { fair, limit, most, speaks } = limitsOf(words, setting);
  // Nothing in common and hard to fit besides: talk that is not for the book.
  if (vote.agreement < MAJORITY && evidence.strangeness > limit) return "nothing";
  if (evidence.unexplained > UNEXPLAINED_DOUBT || mayHaveSlipped(words, snr, evidence.strangeness)) return "doubtful";
  const pressed = pressedWords(evidence);
  // Nobody said that: what was said may be more slips away than a lead is measured over.
  if (pressed.some(({ short, dear }) => short && dear)) return "doubtful";
  if (!together) return speaks && vote.agreement >= NEARLY_ALL && evidence.strangeness <= fair ? "pressed" : "doubtful";
  if (evidence.strangeness > most) return speaks && evidence.strangeness <= most + STRANGER ? "strange" : "doubtful";
  if (pressed.some(({ word }) => isNumberWord(word))) return setting.fitted === true ? "pressed" : "doubtful";
  return pressed.length > 0 || evidence.strangeness > limit ? "pressed" : "ok";
}

/**
 * The lead that a winner that is believed so far must have, natural-log units: none needed where it is 0. `snr` is the clip's
 * signal-to-noise ratio and `treble` the same with the treble lifted, dB; `struck` says whether blows fell beside it, or on
 * a word: it fits what it is taken for then, however far that leads.
 */
export function leadWanted(winner: Pass, judged: Judgement, snr: number, treble: () => number, struck: Struck = "no"): number {
  // No figure to be taken for another.
  if (isFreeNote(winner) || isBriefCommand(winner)) return judged === "ok" ? 0 : Number.POSITIVE_INFINITY;
  const words = saidWords(winner);
  const lifted = treble();
  const hiss = hissIn(snr, lifted);
  if (struck === "on_a_word") return Number.POSITIVE_INFINITY;
  if (hiss === "loud" || (lifted < HISSY_IF_HUSHED && words.some(isHushed))) return Number.POSITIVE_INFINITY;
  if (snr < NOISY_SNR && isBlurred(words)) return Number.POSITIVE_INFINITY;
  return Math.max(
    judged === "strange" ? LEAST_LEAD_STRANGE : 0,
    judged === "pressed" || isHomophone(words) || isBreathLong(ownWords(winner)) ? LEAST_LEAD_PRESSED : 0,
    hiss === "some" ? LEAST_LEAD_IN_HISS : 0,
    struck !== "no" && words.some(isHushed) ? LEAST_LEAD_IF_STRUCK : 0,
    isSlippery(words) ? LEAST_LEAD_SLIPPERY : 0,
  );
}
