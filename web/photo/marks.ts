// Arrows and circles drawn on a picture with the finger: shares of its width and height, so that they fit any size of it.
import type { EventData } from "../../shared/events/events.ts";

export type PhotoMark = EventData["photo.marked"]["marks"][number];

/** A drag shorter than this share of the picture is a slip, not a mark. */
const SHORTEST = 0.02;

export interface Box {
  readonly left: number;
  readonly top: number;
  readonly width: number;
  readonly height: number;
}

/** Where a finger is on the picture, each way 0 to 1. */
export function onPicture(x: number, y: number, box: Box): { x: number; y: number } {
  const share = (at: number, from: number, size: number) => Math.round(Math.min(1, Math.max(0, (at - from) / size)) * 1e4) / 1e4;
  return { x: share(x, box.left, box.width), y: share(y, box.top, box.height) };
}

/** A finished drag as a mark; undefined where it was too short to mean one. */
export function markOfDrag(
  kind: PhotoMark["kind"],
  from: { x: number; y: number },
  to: { x: number; y: number },
): PhotoMark | undefined {
  if (Math.hypot(to.x - from.x, to.y - from.y) < SHORTEST) return undefined;
  return { kind, x1: from.x, y1: from.y, x2: to.x, y2: to.y };
}

/** Path of a mark in a picture of `width` by `height`: an arrow from its start to its tip, a circle between two of its sides. */
export function markPath({ kind, x1, y1, x2, y2 }: PhotoMark, width: number, height: number): string {
  const [ax, ay, bx, by] = [x1 * width, y1 * height, x2 * width, y2 * height];
  if (kind === "circle") {
    const [rx, ry] = [Math.max(1, Math.abs(bx - ax) / 2), Math.max(1, Math.abs(by - ay) / 2)];
    const [cx, cy] = [(ax + bx) / 2, (ay + by) / 2];
    return `M${cx - rx} ${cy}a${rx} ${ry} 0 1 0 ${rx * 2} 0a${rx} ${ry} 0 1 0 ${-rx * 2} 0`;
  }
  const angle = Math.atan2(by - ay, bx - ax);
  const head = Math.min(width, height) * 0.05;
  const wing = (turn: number) => `L${bx - head * Math.cos(angle + turn)} ${by - head * Math.sin(angle + turn)}`;
  return `M${ax} ${ay}L${bx} ${by}M${bx} ${by}${wing(0.5)}M${bx} ${by}${wing(-0.5)}`;
}
