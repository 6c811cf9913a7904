// One understood utterance in, the events it makes out: the same on the phone at the vise and in the shop's server.
import { type Build, focusOf } from "../../shared/build/index.ts";
import type { BenchEvent, EventData } from "../../shared/events/events.ts";
import type { Note, Parsed, Reading } from "../../shared/events/reading.ts";
import { COMMAND_ROWS } from "./commands.ts";
import { partOf } from "./part-words.ts";
import { type Stamp, stampEvent } from "./stamp.ts";

export interface Heard {
  readonly by: "voice" | "typed";
  /** SHA-256 of the kept sound. */
  readonly clip?: string;
  readonly seconds?: number;
}

export interface LogInput {
  readonly parsed: Parsed;
  readonly build: Build;
  readonly stamp: Stamp;
  readonly heard: Heard;
  /** Keep the utterance even when nothing was made of it: a clip that somebody handed in on purpose. */
  readonly keep?: boolean;
}

export interface Logged {
  /** To be appended to the log in this order; empty when the words were not for the book. */
  readonly events: readonly BenchEvent[];
  /** Words to say back for commands; readings are read back with their verdict by `readBack`. */
  readonly say: readonly string[];
}

/** Whether the parser made anything of the words. */
export function isForTheBook(parsed: Parsed): boolean {
  return parsed.readings.length + parsed.questions.length + parsed.commands.length + parsed.notes.length > 0;
}

function utteranceData(parsed: Parsed, heard: Heard): EventData["utterance.heard"] {
  return {
    text: parsed.text,
    by: heard.by,
    ...(heard.clip === undefined ? {} : { clip: heard.clip }),
    ...(heard.seconds === undefined ? {} : { seconds: heard.seconds }),
    ...(parsed.unread.length === 0 ? {} : { unread: parsed.unread }),
  };
}

/**
 * Turn an understood utterance into events. Pure but for the stamp: nothing is stored and the build is not touched.
 * A correction replaces the device's last reading; every other reading is a new one at the open step.
 */
export function logUtterance({ parsed, build, stamp, heard, keep = false }: LogInput): Logged {
  if (!keep && !isForTheBook(parsed)) return { events: [], say: [] };
  const utterance = stampEvent(stamp, "utterance.heard", utteranceData(parsed, heard));
  const events: BenchEvent[] = [utterance];
  const say: string[] = [];
  const focus = focusOf(build, stamp.device);
  const step = focus.step;

  for (const command of parsed.commands) {
    const result = COMMAND_ROWS[command.command]({ command, build, stamp, utterance: utterance.id });
    events.push(...result.events);
    if (result.say !== undefined) say.push(result.say);
  }

  const corrects = parsed.commands.some((command) => command.command === "correct") ? focus.last : undefined;
  parsed.readings.forEach((reading: Reading, index) => {
    if (corrects !== undefined && index === 0) {
      events.push(stampEvent(stamp, "reading.corrected", { target: corrects, reading, utterance: utterance.id }));
      return;
    }
    events.push(
      stampEvent(stamp, "reading.taken", { reading, utterance: utterance.id, ...(step === undefined ? {} : { step }) }),
    );
  });

  for (const question of parsed.questions) {
    events.push(stampEvent(stamp, "question.asked", { question, utterance: utterance.id }));
    say.push(question.say);
  }
  for (const note of parsed.notes) events.push(...noteEvents(note, stamp, utterance.id, step));
  return { events, say };
}

function noteEvents(note: Note, stamp: Stamp, utterance: string, step: EventData["note.made"]["step"]): BenchEvent[] {
  const made = stampEvent(stamp, "note.made", { note, utterance, ...(step === undefined ? {} : { step }) });
  const part = note.kind === "part_changed" ? partOf(note.text) : undefined;
  if (part === undefined) return [made];
  return [made, stampEvent(stamp, "part.changed", { part, place: note.place ?? {}, what: note.text })];
}
