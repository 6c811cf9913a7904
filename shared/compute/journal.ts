// The form of a journal from diameters at two stations and two angles; the bend of a crank from its run-out.
import { computation, GEOMETRY, inches, input } from "./computation.ts";
import { ABOVE_ZERO, NOT_NEGATIVE } from "./domain.ts";
import { type Inch, inch, minus, tidy, times } from "./measure.ts";

export interface JournalStation {
  readonly vertical?: Inch | undefined;
  readonly horizontal?: Inch | undefined;
}

export interface JournalForm {
  /** Largest |vertical - horizontal| at one station. */
  readonly outOfRound: Inch | undefined;
  /** Largest difference of the stations at one angle. */
  readonly taper: Inch | undefined;
  readonly smallest: Inch | undefined;
}

const worst = (pairs: readonly (readonly [Inch | undefined, Inch | undefined])[]): Inch | undefined => {
  const found = pairs.flatMap(([a, b]) => (a === undefined || b === undefined ? [] : [Math.abs(minus(a, b))]));
  return found.length === 0 ? undefined : inch(Math.max(...found));
};

/** Journal form. Source: TM 9-2815-202-34, crankshaft journals measured at two stations and 90 degrees apart. */
export function journalForm(front: JournalStation, rear: JournalStation): JournalForm {
  const all = [front.vertical, front.horizontal, rear.vertical, rear.horizontal].filter((v): v is Inch => v !== undefined);
  return {
    outOfRound: worst([
      [front.vertical, front.horizontal],
      [rear.vertical, rear.horizontal],
    ]),
    taper: worst([
      [front.vertical, rear.vertical],
      [front.horizontal, rear.horizontal],
    ]),
    smallest: all.length === 0 ? undefined : inch(Math.min(...all)),
  };
}

/** A shaft bent by b runs out by 2b on the dial. */
export function crankBend(tir: Inch): Inch {
  return times(tir, 0.5);
}

export const JOURNAL_COMPUTATIONS = [
  computation({
    id: "journal-form",
    title: "Out-of-round and taper of a journal",
    inputs: {
      readings: input.list("in", "front vertical, front horizontal, rear vertical, rear horizontal", 4, 4, ABOVE_ZERO),
      length: input.optional("in", "distance of the stations, for taper per inch", ABOVE_ZERO),
    },
    unit: "in",
    formula: "out_of_round = max |vertical - horizontal| at a station; taper = max |front - rear| at an angle",
    source: "TM 9-2815-202-34, p. 4-158",
    run: (x) => {
      const [fv, fh, rv, rh] = x.readings;
      const form = journalForm({ vertical: fv, horizontal: fh }, { vertical: rv, horizontal: rh });
      const taper = form.taper ?? inch(0);
      return {
        value: {
          out_of_round: inches(form.outOfRound ?? 0),
          taper: inches(taper),
          smallest: inches(form.smallest ?? 0),
          ...(x.length === undefined ? {} : { taper_per_inch: tidy(taper / x.length) }),
        },
      };
    },
  }),
  computation({
    id: "crank-bend",
    title: "Bend of a crank from its run-out",
    inputs: { tir: input.number("in", "total indicator reading at the centre main", NOT_NEGATIVE) },
    unit: "in",
    formula: "bend = TIR / 2",
    source: `${GEOMETRY}; TM 10-3930-653-14&P`,
    run: (x) => ({ value: crankBend(x.tir) }),
  }),
];
