// This device's clock as the log wants it.

/** A moment as ISO 8601 with the offset of this device's zone: `2026-03-04T10:11:12.345+01:00`. */
export function isoWithOffset(moment: Date): string {
  const offset = -moment.getTimezoneOffset();
  const local = new Date(moment.getTime() + offset * 60_000).toISOString().slice(0, -1);
  const two = (value: number) => String(Math.trunc(Math.abs(value))).padStart(2, "0");
  return `${local}${offset < 0 ? "-" : "+"}${two(offset / 60)}:${two(offset % 60)}`;
}
