// Spoken commands as data: each is every head with every tail ("" is none), and the phrases that stand alone.
import type { Command } from "../../../shared/events/reading.ts";

export interface CommandWords {
  readonly command: Command["command"];
  readonly heads: readonly string[];
  readonly tails: readonly string[];
  readonly alone: readonly string[];
}

const list = (text: string): string[] => text.split(",").map((phrase) => phrase.trim());

/** What an undo or a repeat may be said of. */
const LAST = list(
  "that, it, this, that one, this one, last, the last, the last one, last one, that last one, the last reading, last reading, that reading, that last reading, the last entry, that entry, that last entry, the last measurement, that measurement, the last figure, that figure, that number, the previous one, the previous reading, the previous, the one before",
);
const THINGS = list(
  "one, cylinder, main, rod, bearing, ring, bore, valve, pin, crankpin, journal, nut, piston, place, reading, hole, item, step, measurement, guide, seat, spring, chamber, throw, stud, bolt, main bearing, pot, one please, cylinder please",
);

export const COMMAND_WORDS: readonly CommandWords[] = [
  {
    command: "undo",
    heads: list(
      "undo, strike, scratch, scrub, scrap, delete, remove, erase, wipe, cancel, forget, ignore, disregard, drop, void, clear, kill, lose, bin, withdraw, take back, take out, throw out, throw away, back out, rub out, never mind, strike out, cross out, dump, discard",
    ),
    tails: LAST,
    alone: list(
      "undo, delete, cancel, disregard, scratch, nevermind, never mind, take that back, take it back, take that out, take that one back, take the last one back, take the last one out, take that last one out, throw that out, throw that away, back that out, rub that out, cross that out, strike that out, dont keep that, get rid of that, get rid of the last one, get rid of that one",
    ),
  },
  {
    command: "confirm",
    heads: list("confirm, accept, keep, save, store, log, enter, record"),
    tails: list("that, it, that one, the reading, that reading"),
    alone: list(
      "confirm, confirmed, i confirm, yes, yes confirm, yes confirmed, yep, yeah, yup, aye, yes it is, yes please, yes thats it, correct, thats correct, that is correct, yes thats correct, yes correct, thats right, that is right, yes thats right, affirmative, affirm, accept, accepted, sure, exactly right, thats the one, it is correct, its correct, okay confirm, thats good, good reading, book it, put it down, okay log it, i confirm that, yes log it, yes save it, yes keep it, sounds right",
    ),
  },
  {
    command: "reject",
    heads: list("reject, refuse, dont log, dont save, dont store, do not log, do not save, do not store, dont record"),
    tails: list("that, it, that one, that reading"),
    alone: list(
      "wrong, thats wrong, that is wrong, no thats wrong, no wrong, that was wrong, its wrong, no, nope, nah, no no, negative, incorrect, thats incorrect, that is incorrect, no thats incorrect, thats not right, that is not right, not right, no thats not right, reject, not correct, thats not correct, that is not correct, you got that wrong, that isnt right, that isnt correct, no thats not it, thats not it, no it isnt, no its not, wrong reading, wrong number, thats not what i said, i didnt say that, bad reading, that was a bad reading",
    ),
  },
  {
    command: "next",
    heads: list(
      "next, go to the next, go to next, move to the next, move on to the next, on to the next, onto the next, skip to the next, the next, go on to the next, now the next",
    ),
    tails: THINGS,
    alone: list(
      "next, next please, next up, go next, move on to the next, go on to the next, skip to the next, now the next, the next, go to the next, go to next, move on, moving on, onto the next, on to the next, on to next, move to the next, move along, skip, skip it, skip this, skip that, skip this one, skip that one, lets move on, advance, on we go, forward",
    ),
  },
  {
    command: "photo",
    heads: list(
      "photo, photo of, picture, picture of, photograph, photograph of, take a photo, take a photo of, take photo, take photo of, take a picture, take a picture of, take picture, take picture of, take the photo, take the picture, take a shot, take a shot of, take a snap, take a snap of, take a snapshot, take a snapshot of, snap, snap a photo, snap a photo of, snap a picture, snap a picture of, get a photo, get a photo of, get a picture, get a picture of, get a shot, get a shot of, grab a photo, grab a photo of, grab a picture, grab a picture of, shoot, capture, another photo, another photo of, another picture, take another photo, take another photo of, take another picture, take another picture of, snapshot, snapshot of, camera",
    ),
    tails: list("this, that, it, this one, that one, here, now, please, of this please, of that please"),
    alone: list(
      "photo, photograph, picture, take a photo, take photo, take a picture, take picture, take the photo, take the picture, take a shot, take a snap, take a snapshot, snapshot, snap, snap a photo, snap a picture, get a photo, get a picture, get a shot, another photo, another picture, take another photo, take another picture, take one more photo, one more photo, camera, grab a photo, grab a picture, photo time",
    ),
  },
  {
    command: "repeat",
    heads: list("repeat, say, read, read back, play, play back, tell me, give me"),
    tails: list(
      "that back, it back, that again, it again, again, that back please, the last one back, that back to me, it back to me, the last reading back, the last one again, last one, the last one, the last reading, the last",
    ),
    alone: list(
      "repeat, repeat that, repeat please, repeat that please, repeat it, say again, say again please, come again, pardon, pardon me, what was that, what did you say, what was the last one, read back, read back please, read that, read me that back, read me that again, once more, again, again please, one more time, what was that again, sorry what was that, didnt catch that, i didnt catch that, i didnt hear that, missed that, i missed that, what have you got, what did you get, what did you hear, what did you log, what have you logged, say what",
    ),
  },
  {
    command: "pause",
    heads: list("pause, stop, suspend, hold"),
    tails: list(
      "listening, logging, recording, the log, please, there, for now, it there, for a minute, for a moment, for a second, a moment, a minute, taking notes",
    ),
    alone: list(
      "pause, stop, mute, go to sleep, sleep, stand by, standby, take a break, quiet, be quiet, mic off, microphone off, hold it there, hold it, pause it, time out, mute please, mute the mic",
    ),
  },
  {
    command: "resume",
    heads: list("resume, start, begin, restart, carry on, keep, continue, back to"),
    tails: list("listening, logging, recording, the log, please, listening again, logging again"),
    alone: list(
      "resume, listen, listen up, wake up, unpause, unmute, carry on, continue, go on, mic on, microphone on, im back, i am back, back on, back to work, go ahead, keep going, start again, ready, im ready, okay im back, listen again, lets go on, unmute the mic",
    ),
  },
  {
    command: "done",
    heads: list(
      "done, finished, finish, complete, close, end, im done, im finished, i am done, were done, we are done, all done, done here, finished here",
    ),
    tails: list(
      "with this, with that, with this step, with that step, this step, the step, step, with it, here, with this one, with that one, of step, of the step",
    ),
    alone: list(
      "done, all done, finished, all finished, thats it, thats all, thats the lot, thats everything, im done, i am done, im finished, i am finished, step done, step finished, step complete, complete, completed, end of step, end of the step, thats done, this step is done, that step is done, this step is finished, were done, were done here, we are done, done here, finished here, mark it done, mark step done, mark this done, mark that done, thats that done, job done, thats me done, stage done, its done, thats that, thats this step done, thats it for this step, thats it for that, thats all of them",
    ),
  },
];

/** Said before a place or a step's name to go there. */
export const GO_WORDS: readonly string[] = list(
  "go to, goto, go on to, move to, move on to, moving to, moving on to, moving onto, on to, onto, now, now on, over to, switch to, change to, back to, go back to, going to, going back to, jump to, take me to, next is, next up, this is, now doing, doing, im on, i am on, im at, on, at, we are on, were on, its, starting on, start on, start with, lets do, lets go to",
);
/** Said before a step's name to open it. */
export const OPEN_WORDS: readonly string[] = list(
  "open, open up, open step, open the step, start, start on, start with, start step, start the step, starting, starting on, starting with, begin, begin with, begin on, begin step, beginning, step, go to, go to step, goto, go on to, move to, moving to, moving on to, move on to, on to, onto, now, lets do, lets start, lets start on, lets move on to, lets go to, do, doing, now doing, next step, switch to, back to, go back to, jump to, change to, time for, working on, im on, were on, continue with, carry on with, resume",
);
/** Said with a step's name to close it. */
export const CLOSE_WORDS: readonly string[] = list(
  "done with, finished with, finished, done, finish, finish with, complete, close, end, im done with, were done with, thats it for, im finished with, completed, end of, close off, finish off",
);
/** Said after a step's name to close it. */
export const CLOSED_WORDS: readonly string[] = list(
  "done, are done, is done, finished, are finished, is finished, complete, are complete, is complete, all done, are all done, completed, closed",
);

/** Said to copy the last reading to another place. */
export const SAME_WORDS: readonly string[] = list(
  "same, the same, same again, same thing, same as before, ditto, same reading, same figure, same value, likewise, identical, copy, copy that, copy it, copy that to, copy it to, copy to, repeat that, repeat it, same as, same as that, exactly the same, just the same, its the same, thats the same, also the same, same size, same number, same gap, same clearance, same torque, and the same, same story, same there, same here, same on, same for, same at, same with, is the same, are the same, reads the same, measures the same, the same again, the same on, the same for, copy that for, copy that on, copy for, copy on, comes out the same",
);

/** Words that copy to every place, or to every other one. */
export const EVERY_WORDS: ReadonlySet<string> = new Set(["all", "every", "everything"]);
export const OTHERS_WORDS: ReadonlySet<string> = new Set(["rest", "others", "other"]);
/** Words beside a copy that say nothing more. */
export const COPY_IDLE: ReadonlySet<string> = new Set([
  "of",
  "them",
  "the",
  "are",
  "is",
  "as",
  "well",
  "too",
  "round",
  "please",
  "again",
  "its",
  "thats",
  "also",
]);
