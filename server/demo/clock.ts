// The demo's day book has a clock of its own: it starts on the demo's first morning and moves as the book says.

export interface DemoClock {
  now(): string;
  /** Move on by so many minutes. */
  pass(minutes: number): void;
}

/** A clock that stands at `start` (ISO 8601 with offset) and keeps its offset. */
export function demoClock(start: string): DemoClock {
  const offset = /([+-]\d\d:\d\d|Z)$/.exec(start)?.[1] ?? "Z";
  const shift = offset === "Z" ? 0 : offsetMinutes(offset);
  let at = Date.parse(start);
  let ticks = 0;
  return {
    // Each look at the clock is a tenth of a second later, so that the events of one line keep their order by time too.
    now: () => {
      ticks += 1;
      return new Date(at + ticks * 100 + shift * 60_000).toISOString().replace("Z", offset);
    },
    // The ticks end with the line: the pictures' camera times are reckoned from the book's whole minutes.
    pass: (minutes) => {
      at += minutes * 60_000;
      ticks = 0;
    },
  };
}

function offsetMinutes(offset: string): number {
  const [hours, minutes] = offset.slice(1).split(":").map(Number);
  return (offset.startsWith("-") ? -1 : 1) * ((hours ?? 0) * 60 + (minutes ?? 0));
}
