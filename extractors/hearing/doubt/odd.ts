// What is known of a voice and its shop in, how badly a sentence may fit before it is asked about out.

/** What is known beside the sentence itself. */
export interface Setting {
  /** How strange the voice's sentences mostly are, when that is known. */
  readonly usual?: number | undefined;
  /** Whether the model is fitted to the voice. */
  readonly fitted?: boolean;
  /** Whether nothing else sounds where it is said: noise makes every sentence dearer. */
  readonly quiet?: boolean;
  /** Whether another thing is open than the one the sentence is about: other talk mostly ends up there, in few words. */
  readonly elsewhere?: boolean;
}

/** A limit on strangeness as a share of what is usual for a voice, and how far it goes either way. */
interface ForVoice {
  readonly share: number;
  readonly least: number;
  readonly most: number;
}

/**
 * Strangeness above which a sentence is asked about: for a voice not known yet, and as a share of what is usual for it. Of the
 * tuning voices' sentences that all passes heard alike and wrong, seven in twelve lie above the first; of the right ones one in
 * seven, and nearly all of those are of voices the model does not know the like of.
 */
const ODD = 325;
/** However well a voice fits, its sentences differ by as much; and however badly, more is not taken: fitting the model is the cure. */
const ODD_FOR_VOICE: ForVoice = { share: 1.2, least: 315, most: 345 };
/**
 * The same in a quiet shop, once the model is fitted to the voice. Of 216 right sentences of nine tuning voices the dearest cost
 * 280; of 342 of their talk about the trade four were figures that counted, for 299 and more.
 */
const ODD_IN_QUIET: ForVoice = { ...ODD_FOR_VOICE, least: 290 };
/** For a read-out and for what is easily taken for another number: no band catches a digit that slipped. */
const ODD_IF_SLIPPERY = 320;
/**
 * The same once the model is fitted to the voice, and as a share of what is usual for it then (about 200 mostly). Of the tuning
 * voices' right ones eight in 435 lie above the first, and a demo read-out that all passes heard wrong.
 */
const ODD_IF_SLIPPERY_FITTED: ForVoice = { share: 1.25, least: 280, most: ODD_IF_SLIPPERY };

const limitFor = (usual: number, { share, least, most }: ForVoice) => Math.min(most, Math.max(least, usual * share));

/** Strangeness above which any sentence is asked about. */
export function oddFrom({ usual, fitted = false, quiet = false }: Setting): number {
  if (fitted && quiet) return limitFor(usual ?? 0, ODD_IN_QUIET);
  return usual === undefined ? ODD : limitFor(usual, ODD_FOR_VOICE);
}

/** The same for a read-out and for what is easily taken for another number. */
export const oddIfSlippery = ({ usual = 0, fitted = false }: Setting) =>
  fitted ? limitFor(usual, ODD_IF_SLIPPERY_FITTED) : ODD_IF_SLIPPERY;
