// Moments and spans of time as they are written in the book.

const day = new Intl.DateTimeFormat(undefined, { weekday: "short", day: "numeric", month: "short", year: "numeric" });
const clock = new Intl.DateTimeFormat(undefined, { hour: "2-digit", minute: "2-digit", hour12: false });

export const dayOf = (at: string): string => day.format(new Date(at));
export const clockOf = (at: string): string => clock.format(new Date(at));

/** The clock at a moment told beside another: with its day where that is another one. */
export const clockBeside = (at: string, other: string): string =>
  dayOf(at) === dayOf(other) ? clockOf(at) : `${dayOf(at)} ${clockOf(at)}`;

/** `3 min`, `2 h`, `4 days`. */
export function since(at: string, now: number = Date.now()): string {
  const minutes = Math.max(0, Math.floor((now - Date.parse(at)) / 60_000));
  if (minutes < 60) return `${minutes} min`;
  if (minutes < 48 * 60) return `${Math.floor(minutes / 60)} h`;
  return `${Math.floor(minutes / 1440)} days`;
}
