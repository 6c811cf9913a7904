// A HEIC file in, the same with an "irot" property out (ISO/IEC 23008-12, 6.5.10): how phones say that a picture lies on its side.

interface Box {
  readonly type: string;
  readonly at: number;
  readonly end: number;
}

/** Boxes between two offsets, by the headers of ISO/IEC 14496-12. */
function boxes(bytes: Buffer, from: number, to: number): Box[] {
  const list: Box[] = [];
  for (let at = from; at + 8 <= to; ) {
    const end = at + bytes.readUInt32BE(at);
    list.push({ type: bytes.toString("latin1", at + 4, at + 8), at, end });
    at = end;
  }
  return list;
}

function one(list: readonly Box[], type: string): Box {
  const found = list.find((box) => box.type === type);
  if (!found) throw new Error(`Expected a ${type} box`);
  return found;
}

/** Moves every file offset of an "iloc" box of version 0 or 1 with 4-byte offsets and lengths. */
function moveItems(bytes: Buffer, { at }: Box, by: number): void {
  const version = bytes.readUInt8(at + 8);
  if (version > 1 || bytes.readUInt8(at + 12) !== 0x44) throw new Error("Expected 4-byte offsets");
  const base = bytes.readUInt8(at + 13) >> 4;
  let here = at + 16;
  for (let item = bytes.readUInt16BE(at + 14); item > 0; item -= 1) {
    here += 2 + (version === 1 ? 2 : 0) + 2 + base;
    const extents = bytes.readUInt16BE(here);
    here += 2;
    for (let extent = 0; extent < extents; extent += 1, here += 8) bytes.writeUInt32BE(bytes.readUInt32BE(here) + by, here);
  }
}

/** Adds a turn of `quarters` times 90 degrees anticlockwise to the primary item. */
export function turnedHeic(original: Buffer, quarters: 1 | 2 | 3): Buffer {
  const top = boxes(original, 0, original.length);
  const meta = one(top, "meta");
  const inside = boxes(original, meta.at + 12, meta.end);
  const primary = original.readUInt16BE(one(inside, "pitm").at + 12);
  const iprp = one(inside, "iprp");
  const properties = boxes(original, iprp.at + 8, iprp.end);
  const [ipco, ipma] = [one(properties, "ipco"), one(properties, "ipma")];
  const irot = Buffer.from([0, 0, 0, 9, 0x69, 0x72, 0x6f, 0x74, quarters]);
  const index = boxes(original, ipco.at + 8, ipco.end).length + 1;

  // "ipma" of version 0 with 7-bit indices: one more association, essential, for the primary item.
  const entries = original.readUInt32BE(ipma.at + 12);
  let here = ipma.at + 16;
  let insertAt = -1;
  let countAt = -1;
  for (let entry = 0; entry < entries; entry += 1) {
    const count = original.readUInt8(here + 2);
    if (original.readUInt16BE(here) === primary) [countAt, insertAt] = [here + 2, here + 3 + count];
    here += 3 + count;
  }
  const copy = Buffer.from(original);
  copy.writeUInt8(copy.readUInt8(countAt) + 1, countAt);
  const grow = (box: Box, by: number) => copy.writeUInt32BE(box.end - box.at + by, box.at);
  grow(meta, irot.length + 1);
  grow(iprp, irot.length + 1);
  grow(ipco, irot.length);
  grow(ipma, 1);
  moveItems(copy, one(inside, "iloc"), irot.length + 1);
  const association = Buffer.from([0x80 | index]);
  return Buffer.concat([
    copy.subarray(0, ipco.end),
    irot,
    copy.subarray(ipco.end, insertAt),
    association,
    copy.subarray(insertAt),
  ]);
}
