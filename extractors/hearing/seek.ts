// One clip and one scope in, what was said of it out: a look with the whole grammar, checks against what sounds like that, a verdict.
import { isEnough, votesWanted } from "./doubt/agreement.ts";
import { type Evidence, evidenceOf, strangenessOf } from "./doubt/evidence.ts";
import { type HearRivals, leads } from "./doubt/lead.ts";
import type { Setting } from "./doubt/odd.ts";
import { otherWouldBe } from "./doubt/other-speech.ts";
import { isElsewhere } from "./doubt/pass-words.ts";
import { FAR_AHEAD, FEW_ALIKE, mayStand } from "./doubt/stands.ts";
import {
  hissIn,
  isBelieved,
  isBriefCommand,
  isHopeless,
  type Judgement,
  judge,
  leadWanted,
  mayStillCount,
  NOISY_SNR,
  tooStrange,
  UNUSUAL,
} from "./doubt/verdict.ts";
import { costOf, heardPasses, likeliest, type Pass, type Vote, vote } from "./doubt/vote.ts";
import { checkWarp, MIDDLE, nextLook, UNKNOWN, type VoiceMemory } from "./doubt/warps.ts";
import { ENGINE_RATE } from "./engine/decoder.ts";
import { isFocused } from "./grammar/index.ts";
import { ON } from "./grammar/outline.ts";
import { doubtOf, firstSight, glimpse, heardOf, isQuiet, nothing } from "./heard.ts";
import type { Passes, Sought } from "./passes.ts";
import { isFreeNote } from "./text.ts";
import type { Heard, HeardVerdict } from "./types.ts";
import type { VoiceFit } from "./voice/fit.ts";

/** Checks before the ear gives up looking for agreement. */
const MOST_CHECKS = 5;
/** Voters that tell what to ask about, where it will be asked; fewer where they agree. */
const ENOUGH_TO_ASK = 3;
const ENOUGH_IF_AGREED = 2;

export interface Found {
  readonly heard: Heard;
  /** The pass of the whole grammar that heard the same, to learn the voice from, where there is nothing else in the sound. */
  readonly whole?: Pass;
  /** Of what is open nothing was heard: the sentence began as one about something else. */
  readonly elsewhere?: Pass;
}

export class Seeker {
  readonly #passes: Passes;
  readonly #fit: VoiceFit;
  readonly #memory: VoiceMemory;

  constructor(passes: Passes, fit: VoiceFit, memory: VoiceMemory) {
    this.#passes = passes;
    this.#fit = fit;
    this.#memory = memory;
  }

  /** Hear a clip in a scope; on the way a first sight of the sentence, once or twice, and after every other decode undefined. */
  *seek(sought: Sought): Generator<Heard | undefined, Found> {
    const { scope, clip, options } = sought;
    const nobody = (warp = 1): Found => ({ heard: nothing(clip.seconds, clip.levels.snr, warp) });
    const passes = yield* this.#look(sought);
    const first = likeliest(passes);
    if (scope === "near" && first !== undefined && isElsewhere(first)) return { ...nobody(), elsewhere: first };
    if (first === undefined || options.beginning === true || !this.#isBetter(passes, sought)) return nobody();
    const seen = this.#evidenceOf(first, sought);
    const plain = yield* this.#stands(first, seen, sought);
    if (plain !== undefined) return plain;
    // Nothing that follows would settle it: it is asked then what else the sentence may be about.
    if (typeof scope !== "string" && sought.last !== true && isHopeless(first, this.#setting(sought))) return nobody();
    yield* this.#check(passes, first, seen, sought);
    const counted = vote(passes);
    const whole = counted && this.#heardWhole(passes, counted.winner, sought);
    if (counted === undefined || whole === undefined) return nobody(counted?.winner.warp);
    const evidence = whole === first ? seen : this.#evidenceOf(whole, sought);
    const judged = judge(counted, evidence, clip.levels.snr, this.#setting(sought));
    const believed = isBelieved(judged);
    // What only the checks heard, and the whole grammar never did, is asked about.
    const sure = believed && whole.meaning === counted.winner.meaning && (yield* this.#leads(counted, judged, evidence, sought));
    const verdict = believed ? (sure && !this.#isOther(whole, evidence, sought) ? "ok" : "doubtful") : judged;
    return this.#settled(counted, evidence, verdict, whole, sought);
  }

  /** The words (with roles) of a clip's sentence in outline, whatever it is about: at the voice's scale, or the cheaper of two. */
  *outline(sought: Omit<Sought, "scope">): Generator<undefined, readonly string[]> {
    const known = this.#memory.warp(sought.options.speaker?.warp);
    const heard: Pick<Pass, "warp" | "decoded">[] = [];
    for (const warp of known === undefined ? UNKNOWN : [known]) {
      heard.push({ warp, decoded: this.#passes.outline(sought, warp) });
      yield undefined;
    }
    const [cheapest] = heard.sort((one, other) => costOf(one) - costOf(other));
    return cheapest?.decoded.words.map(({ word }) => word).filter((word) => word !== ON) ?? [];
  }

  /** Whether any of the looks costs little enough to be gone by. */
  #isBetter(looks: readonly Pass[], { better = Number.POSITIVE_INFINITY }: Sought): boolean {
    return looks.some(({ decoded }) => strangenessOf(decoded) < better);
  }

  /** `pass` is one of a whole grammar. */
  #evidenceOf(pass: Pass, { clip }: Sought) {
    return evidenceOf(pass.decoded, clip.at(pass.warp), ENGINE_RATE, clip);
  }

  /** What is known of the voice, and whether `scope` is what is open. */
  #setting({ scope, clip, options }: Sought): Setting {
    const elsewhere = scope !== "near" && isFocused(options.context);
    return { usual: this.#memory.usual, fitted: this.#fit.isFitted, quiet: isQuiet(clip), elsewhere };
  }

  /** Look with the whole grammar: at the voice's scale, or at two where the voice is not known or nothing fits. */
  *#look(sought: Sought): Generator<Heard | undefined, Pass[]> {
    const { scope, clip, options } = sought;
    const known = this.#memory.warp(options.speaker?.warp);
    const unknown = options.beginning === true ? [MIDDLE] : UNKNOWN;
    const passes: Pass[] = [];
    for (const warp of known === undefined ? unknown : [known]) {
      const pass = this.#passes.whole(sought, warp);
      passes.push(pass);
      if (known === undefined && passes.length === 1) yield glimpse(pass, clip);
    }
    if (options.beginning === true) return passes;
    const best = likeliest(passes);
    if (best !== undefined && isElsewhere(best)) return passes;
    yield best === undefined ? undefined : firstSight(best, clip);
    if (scope !== "all" && (best === undefined || this.#wantsAnotherLook(best, sought))) {
      passes.push(this.#passes.whole(sought, nextLook(passes)));
      yield undefined;
    }
    return passes;
  }

  /** Whether a look fits so badly that it may be at a wrong scale. */
  #wantsAnotherLook(look: Pass, { clip }: Sought): boolean {
    // The checks of a brief command are looks themselves, and in hiss everything fits badly at every scale.
    if (isBriefCommand(look) || (this.#fit.isFitted && hissIn(clip.levels.snr, clip.treble()) !== "none")) return false;
    return strangenessOf(look.decoded) > UNUSUAL;
  }

  /** A look that one check is enough for: it fits well in a voice that is fitted, and is heard again far ahead of what sounds like it. */
  *#stands(look: Pass, evidence: Evidence, sought: Sought): Generator<undefined, Found | undefined> {
    const setting = this.#setting(sought);
    if (!mayStand(look, evidence, sought.clip, setting)) return undefined;
    const check = { ...look, warp: checkWarp(look.warp, 0) };
    const again = yield* leads(check, [], FAR_AHEAD, this.#rivalsOf(look, sought), this.#passes.waysOf(look, sought), FEW_ALIKE);
    if (again === undefined) return undefined;
    const counted = { winner: look, voters: [look, { ...again, ahead: FAR_AHEAD }], agreement: 1 };
    // Talk mostly ends in what is not open, and may lead there all that sounds like it.
    const verdict = setting.elsewhere && this.#isOther(look, evidence, sought) ? "doubtful" : "ok";
    return this.#settled(counted, evidence, verdict, look, sought);
  }

  /** Hear the best look again, against what sounds like it, at other scales and in other noise, until enough of them agree. */
  *#check(passes: Pass[], best: Pass, { struck }: Evidence, sought: Sought): Generator<undefined, void> {
    if (strangenessOf(best.decoded) > tooStrange(best)) return;
    const { levels, treble } = sought.clip;
    const lead = leadWanted(best, "ok", levels.snr, treble, struck);
    const hear = this.#checkOf(best, lead, sought);
    const setting = this.#setting(sought);
    // A yes will be asked for, whatever the checks hear: they only tell of what.
    const asks = setting.fitted === true && lead === Number.POSITIVE_INFINITY;
    for (let turn = 0; turn < MOST_CHECKS; turn += 1) {
      const counted = vote(passes);
      if (counted === undefined) return;
      const wanted = votesWanted(counted, levels.snr, strangenessOf(best.decoded), setting);
      const votes = Math.round(counted.agreement * counted.voters.length);
      if (votes >= wanted && counted.agreement === 1) return;
      const telling = asks && counted.agreement === 1 ? ENOUGH_IF_AGREED : ENOUGH_TO_ASK;
      const told = counted.voters.length >= telling || sought.better !== undefined;
      if (told && (asks || !mayStillCount(counted, best, setting, MOST_CHECKS - turn))) return;
      const pass = hear({ warp: checkWarp(best.warp, turn), turn: turn + 1 });
      if (pass === undefined) return;
      passes.push(pass);
      yield undefined;
    }
  }

  /** What hears a pass again: where it will have a `lead` to show, a check that hears it so far ahead as that says so. */
  #checkOf(best: Pass, lead: number, sought: Sought): (at: Pick<Pass, "warp" | "turn">) => Pass | undefined {
    // Free speech has no sentences that sound like it, and a brief command has too few: the whole grammar hears them again.
    if (isFreeNote(best) || isBriefCommand(best)) return ({ warp, turn }) => this.#passes.whole(sought, warp, turn);
    if (lead === 0 || lead === Number.POSITIVE_INFINITY) {
      const among = this.#passes.among(best, sought);
      return ({ warp, turn }) => among?.(warp, turn);
    }
    const hear = this.#rivalsOf(best, sought);
    const ways = this.#passes.waysOf(best, sought);
    return (at) => {
      const ahead = hear(at, ways, lead);
      if (ahead?.meaning === best.meaning) return { ...ahead, ahead: lead };
      const again = hear(at, []);
      return again?.meaning === best.meaning ? { ...again, behind: lead } : again;
    };
  }

  #rivalsOf(winner: Pass, sought: Sought): HearRivals {
    return ({ warp, turn }, unwanted, dearer) => this.#passes.among(winner, sought, unwanted, dearer)?.(warp, turn);
  }

  /** Whether a winner that is believed so far is as much cheaper than what else it may have been as it must be. */
  *#leads({ winner, voters }: Vote, judged: Judgement, { struck }: Evidence, sought: Sought): Generator<undefined, boolean> {
    const { levels, treble } = sought.clip;
    const wanted = leadWanted(winner, judged, levels.snr, treble, struck);
    if (wanted === 0 || wanted === Number.POSITIVE_INFINITY) return wanted === 0;
    const hear = this.#rivalsOf(winner, sought);
    const ways = this.#passes.waysOf(winner, sought);
    const ahead = yield* leads(winner, voters, wanted, hear, ways);
    if (ahead === undefined || judged !== "strange") return ahead !== undefined;
    // What sounds like nothing else in the grammar may be anything that is not in it. And where a wrong sentence was so cheap at its
    // beginning that the right one was given up, that is found, and far cheaper, once the wrong one is left out.
    const next = hear(ahead, ways);
    const { cost = 0 } = next?.decoded ?? {};
    return next !== undefined && (next.meaning === winner.meaning || cost >= (ahead.decoded.cost ?? 0));
  }

  /** Whether it is talk that the grammar was bent to: sounds of speech as they come fit far better than the words. */
  #isOther(whole: Pass, evidence: Evidence, sought: Sought): boolean {
    const dearer = otherWouldBe(whole, evidence, this.#setting(sought));
    return dearer !== undefined && this.#passes.isOther(whole, sought, dearer);
  }

  /** The pass of the whole grammar that heard what won; where the checks turned the first look over, it looks once more. */
  #heardWhole(passes: readonly Pass[], winner: Pass, sought: Sought): Pass | undefined {
    const full = heardPasses(passes).filter((pass) => pass.full);
    const same = full.find((pass) => pass.meaning === winner.meaning);
    if (same !== undefined) return same;
    const again = this.#passes.whole(sought, winner.warp, 1);
    return again.meaning === winner.meaning ? again : full[0];
  }

  /** What was heard, and what it tells of the voice; `whole` is the pass of the whole grammar that did. */
  #settled(counted: Vote, evidence: Evidence, verdict: HeardVerdict, whole: Pass, { clip, options }: Sought): Found {
    const { winner } = counted;
    const { strangeness, struck } = evidence;
    // Talk that nothing came of says nothing of how strange the voice's sentences are.
    if (verdict === "ok" && isEnough(counted)) this.#memory.learnFit(strangeness);
    if (verdict === "ok" && options.speaker === undefined) this.#memory.learn(winner.warp);
    const heard = heardOf(counted, doubtOf(counted, strangeness), verdict, clip);
    // What a hammer struck over, or noise lay over, is as much theirs as the voice's.
    const pure = struck === "no" && clip.levels.snr >= NOISY_SNR;
    return pure && whole.meaning === winner.meaning ? { heard, whole } : { heard };
  }
}
