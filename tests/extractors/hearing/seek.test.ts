// How one sentence is sought: what is decoded, how often, and what comes of it. Passes are made by hand, so that each is known.
import { describe, expect, it } from "vitest";
import { seeded } from "../../../extractors/hearing/audio/noise.ts";
import type { Pass } from "../../../extractors/hearing/doubt/vote.ts";
import { VoiceMemory } from "../../../extractors/hearing/doubt/warps.ts";
import { type Clip, clipOf } from "../../../extractors/hearing/heard.ts";
import type { Passes, Sought } from "../../../extractors/hearing/passes.ts";
import { Seeker } from "../../../extractors/hearing/seek.ts";
import { finish } from "../../../extractors/hearing/steps.ts";
import type { VoiceFit } from "../../../extractors/hearing/voice/fit.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";
import { passOf } from "./passes.ts";

const RATE = 16_000;
const SECONDS = 4;

/** A steady sound of four seconds that comes and goes softly, in a quiet room. */
function clip() {
  const random = seeded(3);
  const pcm = new Float32Array((SECONDS + 1) * RATE).map((_, at) => {
    const seconds = at / RATE - 0.5;
    const level = Math.min(1, Math.max(0, seconds * 5), Math.max(0, (SECONDS - seconds) * 5));
    return (random() * 2 - 1) * (0.0005 + 0.2 * level);
  });
  return clipOf(pcm, RATE);
}

/** The same under so much hiss that no figure in it counts without a yes. */
const hissing = (quiet: Clip): Clip => ({ ...quiet, levels: { ...quiet.levels, snr: 13 }, treble: () => 6 });

const GAP = "two top twelve thou";
/** What slips easily does not stand on one check where it costs as much. */
const TEEN_GAP = "two top sixteen thou";
const OTHER_GAP = "two top twenty thou";
const READ_OUT = "three eight seven five";
const OTHER_READ_OUT = "three eight seven nine";

interface Script {
  readonly look: string;
  /** What it costs a second. */
  readonly strangeness: number;
  /** What the checks hear, in turn, however often each is asked; the last one from then on. */
  readonly checks: readonly string[];
  readonly isOther?: boolean;
}

/** Passes that hear what they are told to, and how many of each kind were asked. */
function scripted({ look, strangeness, checks, isOther = false }: Script) {
  const asked = { whole: 0, checks: 0, other: 0 };
  const hear = (text: string, over: Partial<Pass>): Pass => {
    const pass = passOf(text, over, strangeness * 1.06);
    return {
      ...pass,
      decoded: {
        ...pass.decoded,
        words: pass.decoded.words.map((word) => ({ ...word, start: word.start + 0.2, end: word.end + 0.2 })),
      },
    };
  };
  const passes = {
    whole: (_sought: Sought, warp: number, turn = 0) => {
      asked.whole += 1;
      return hear(look, { warp, turn });
    },
    waysOf: (pass: Pass) => [pass.text.split(" ")],
    among: () => (warp: number, turn: number) => {
      asked.checks = Math.max(asked.checks, turn);
      return hear(checks[Math.min(turn, checks.length) - 1] ?? look, { warp, turn, full: false });
    },
    isOther: () => {
      asked.other += 1;
      return isOther;
    },
  };
  return { passes: passes as unknown as Passes, asked };
}

/** Seek in what is open, in a voice that the model is fitted to. */
function seek(script: Script, over: Partial<Sought> & { fitted?: boolean } = {}) {
  const { fitted = true, ...sought } = over;
  const { passes, asked } = scripted(script);
  const seeker = new Seeker(passes, { isFitted: fitted } as VoiceFit, new VoiceMemory());
  const options = {
    spec: DEMO_SPEC,
    context: { step: "rings" as const },
    speaker: { name: "one", format: "thoubook-speaker/1" as const, warp: 1, noise: -60, right: 12, phrases: 12 },
  };
  const { heard } = finish(seeker.seek({ scope: "near", clip: clip(), options, ...sought }));
  return { verdict: heard.verdict, text: heard.text, ...asked };
}

describe("a sentence that all passes hear alike", () => {
  it("counts, and is heard against other speech first where it fits less well", () => {
    expect(seek({ look: GAP, strangeness: 310, checks: [GAP] })).toMatchObject({ verdict: "ok", text: GAP, other: 1 });
    expect(seek({ look: GAP, strangeness: 200, checks: [GAP] })).toMatchObject({ verdict: "ok", text: GAP, other: 0 });
  });

  it("waits where other speech is far ahead of it", () => {
    const bent = { look: GAP, strangeness: 310, checks: [GAP], isOther: true };
    expect(seek(bent)).toMatchObject({ verdict: "doubtful", text: GAP });
    expect(seek({ ...bent, strangeness: 270 }, { scope: "all" })).toMatchObject({ verdict: "doubtful", text: GAP, other: 1 });
  });
});

describe("a sentence that a check hears otherwise", () => {
  it("is heard on where a lead may speak for it", () => {
    const script = { look: TEEN_GAP, strangeness: 270, checks: [OTHER_GAP, TEEN_GAP] };
    expect(seek(script)).toMatchObject({ verdict: "ok", text: TEEN_GAP, checks: 5 });
  });

  it("is asked about once it is told what it is, where none does", () => {
    const script = { look: READ_OUT, strangeness: 270, checks: [OTHER_READ_OUT, READ_OUT] };
    expect(seek(script)).toMatchObject({ verdict: "doubtful", text: READ_OUT, checks: 2 });
  });

  it("is heard on in a stranger's voice, of which a scale may have been wrong", () => {
    const script = { look: READ_OUT, strangeness: 270, checks: [OTHER_READ_OUT, READ_OUT] };
    expect(seek(script, { fitted: false }).checks).toBeGreaterThan(2);
  });
});

describe("a sentence in hiss that hides consonants", () => {
  const hiss = { clip: hissing(clip()) };

  it("is asked about after one check that hears the same: no lead would count", () => {
    expect(seek({ look: GAP, strangeness: 200, checks: [GAP] }, hiss)).toMatchObject({
      verdict: "doubtful",
      text: GAP,
      checks: 1,
    });
  });

  it("is asked about after two where they do not agree", () => {
    expect(seek({ look: GAP, strangeness: 200, checks: [OTHER_GAP, GAP] }, hiss)).toMatchObject({ text: GAP, checks: 2 });
  });

  it("is heard on in a stranger's voice, of which a scale may have been wrong", () => {
    expect(seek({ look: GAP, strangeness: 200, checks: [GAP] }, { ...hiss, fitted: false }).checks).toBeGreaterThan(2);
  });

  it("is looked at once, though it fits badly; in quiet twice", () => {
    const odd = { look: GAP, strangeness: 350, checks: [GAP] };
    expect(seek(odd, hiss).whole).toBe(1);
    expect(seek(odd).whole).toBe(2);
  });
});

describe("a sentence after another was heard that is asked about", () => {
  const wide = { scope: "all", better: 300 } as const;

  it("counts where it costs less and all agree", () => {
    expect(seek({ look: GAP, strangeness: 270, checks: [GAP] }, wide)).toMatchObject({ verdict: "ok", text: GAP });
  });

  it("is left at the first look where it costs as much", () => {
    expect(seek({ look: GAP, strangeness: 310, checks: [GAP] }, wide)).toMatchObject({ verdict: "nothing", whole: 1, checks: 0 });
  });

  it("is left at the first check that hears it otherwise", () => {
    const script = { look: READ_OUT, strangeness: 270, checks: [OTHER_READ_OUT, READ_OUT] };
    expect(seek(script, wide)).toMatchObject({ checks: 1 });
    expect(seek(script, wide).verdict).not.toBe("ok");
  });
});
