// The answer to words that were logged, now or before.
import type { Parsed } from "../../shared/events/reading.ts";
import type { LoggedWords } from "../builds/utterance.ts";
import type { StoredRow } from "../store/store.ts";
import { toStored } from "./rows.ts";

export function answerFor(logged: LoggedWords) {
  if (logged.again) return answerBefore(logged.rows);
  return { parsed: logged.parsed, events: logged.rows.map(toStored), say: [...logged.say] };
}

/** Made from the events they came to, nothing is read again. Commands are not in the log as such, only what they did, so their list is empty here. */
function answerBefore(rows: readonly StoredRow[]) {
  const parsed: Parsed = { text: "", readings: [], questions: [], commands: [], notes: [], unread: [] };
  const events = rows.map(toStored);
  for (const { event } of events) {
    if (event.type === "utterance.heard") {
      parsed.text = event.data.text;
      parsed.unread = event.data.unread ?? [];
    }
    if (event.type === "reading.taken" || event.type === "reading.corrected") parsed.readings.push(event.data.reading);
    if (event.type === "question.asked") parsed.questions.push(event.data.question);
    if (event.type === "note.made") parsed.notes.push(event.data.note);
  }
  return { parsed, events, say: parsed.questions.map((question) => question.say) };
}
