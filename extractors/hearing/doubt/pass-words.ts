// What the words of a pass are about.
import { isFreeNote, isPhoneWord } from "../text.ts";
import type { Pass } from "./vote.ts";

/** Whether a sentence began as one about something that is not open: its rest was heard as any speech. */
export const isElsewhere = (pass: Pass) => !isFreeNote(pass) && pass.decoded.words.some(({ word }) => isPhoneWord(word));

/** Whether a pass heard what was asked about confirmed, and nothing else. */
export const isYes = ({ command, meaning }: Pass) => command && meaning.trim() === "confirm";

/** The words with their roles, without the phones of free speech. */
export const ownWords = ({ decoded }: Pass) => decoded.words.map(({ word }) => word).filter((word) => !isPhoneWord(word));
