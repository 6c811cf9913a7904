// HEIC bytes in, the largest image size its properties declare out, without decoding.

/** Boxes that hold others on the way to "ispe" (ISO/IEC 23008-12, 6.5.3), with bytes to skip before their children. */
const HOLDERS: Readonly<Record<string, number>> = { meta: 4, iprp: 0, ipco: 0 };

interface Size {
  width: number;
  height: number;
}

/** Largest declared size, or undefined where there is none. Reads box headers only; damaged lengths end the walk. */
export function largestHeicSize(bytes: Buffer): Size | undefined {
  let largest: Size | undefined;
  const walk = (from: number, to: number): void => {
    for (let at = from; at + 8 <= to; ) {
      const length = bytes.readUInt32BE(at);
      const type = bytes.toString("latin1", at + 4, at + 8);
      const end = length === 0 ? to : at + length;
      if (end < at + 8 || end > to) return;
      const skip = HOLDERS[type];
      if (skip !== undefined) walk(at + 8 + skip, end);
      if (type === "ispe" && end >= at + 20) {
        const size = { width: bytes.readUInt32BE(at + 12), height: bytes.readUInt32BE(at + 16) };
        if (!largest || size.width * size.height > largest.width * largest.height) largest = size;
      }
      at = end;
    }
  };
  walk(0, bytes.length);
  return largest;
}
