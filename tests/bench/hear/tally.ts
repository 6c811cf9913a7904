// Counts how sentences came out: exact, asked, nothing, or silently wrong.
import type { Parsed, Reading } from "../../../shared/events/reading.ts";
import { placeKey } from "../../../shared/places/places.ts";
import { type Sentence, wanted } from "./sentences.ts";

const key = ({ quantity, place, value, unit }: Reading) => `${quantity} ${placeKey(place)} ${value} ${unit}`;
const keys = (parsed: Parsed) =>
  [...parsed.readings.map(key), ...parsed.commands.map(({ command, place }) => `${command} ${placeKey(place ?? {})}`)]
    .sort()
    .join("; ");

export class Tally {
  exact = 0;
  /** Asked or waiting with the right reading in hand: a yes is enough. */
  yes = 0;
  asked = 0;
  nothing = 0;
  wrong = 0;
  computing = 0;
  speech = 0;

  /** `exact`: counts at once and is right. `asked`: waits or asks. `wrong`: counts at once and is not what was said. */
  add(sentence: Sentence, got: Parsed, computing: number, speech: number): void {
    this.computing += computing;
    this.speech += speech;
    const right = keys(wanted(sentence)) === keys(got);
    const counts = got.readings.some((reading) => reading.do === "accept") || got.commands.length > 0;
    const waits = got.questions.length > 0 || got.readings.some((reading) => reading.do === "confirm");
    // A sentence that waits even when typed is exact when it waits with the right value.
    const waitsAnyway = wanted(sentence).readings.some((reading) => reading.do === "confirm");
    if (right && (!waits || waitsAnyway)) this.exact += 1;
    else if (waits && right) this.yes += 1;
    else if (waits) this.asked += 1;
    else if (counts) this.wrong += 1;
    else this.nothing += 1;
  }

  get total(): number {
    return this.exact + this.yes + this.asked + this.nothing + this.wrong;
  }
}

const share = (part: number, whole: number) => `${((100 * part) / Math.max(1, whole)).toFixed(1)} %`.padStart(9);

export const TABLE_HEAD = `${"".padEnd(34)}${["exact", "yes?", "asked", "nothing", "wrong", "s/s"].map((head) => head.padStart(9)).join("")}`;

export function row(name: string, tally: Tally): string {
  const { exact, yes, asked, nothing, wrong, total, computing, speech } = tally;
  return `${name.padEnd(34)}${[exact, yes, asked, nothing, wrong].map((part) => share(part, total)).join("")}${(computing / speech).toFixed(3).padStart(9)}`;
}
