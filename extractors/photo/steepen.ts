// A grey picture in, the same with steeper edges out: blurred and greasy squares of a code part again. Browser and server alike.
import type { Rgba } from "./card-reader.ts";
import type { Grey } from "./measures.ts";

/** How strongly the difference to the mean of the 5 by 5 field around is added. */
const AMOUNT = 2;

/** Unsharp mask by a 5 by 5 mean, kept as running column sums so that its cost is a few steps a pixel; edges stay as they are. */
export function steepen({ data, width, height }: Grey): Rgba {
  const out = new Uint8ClampedArray(width * height * 4).fill(255);
  const pixels = new Uint32Array(out.buffer);
  const columns = new Int32Array(width);
  for (let y = 0; y < Math.min(5, height); y += 1)
    for (let x = 0; x < width; x += 1) columns[x] = (columns[x] as number) + (data[y * width + x] as number);
  for (let y = 0; y < height; y += 1) {
    const row = y * width;
    const inner = y >= 2 && y < height - 2;
    if (inner && y > 2) {
      const [gone, come] = [(y - 3) * width, (y + 2) * width];
      for (let x = 0; x < width; x += 1)
        columns[x] = (columns[x] as number) - (data[gone + x] as number) + (data[come + x] as number);
    }
    let sum =
      (columns[0] as number) + (columns[1] as number) + (columns[2] as number) + (columns[3] as number) + (columns[4] as number);
    for (let x = 0; x < width; x += 1) {
      let level = data[row + x] as number;
      if (inner && x >= 2 && x < width - 2) {
        if (x > 2) sum += (columns[x + 2] as number) - (columns[x - 3] as number);
        level = level + (AMOUNT * (25 * level - sum)) / 25;
        level = level < 0 ? 0 : level > 255 ? 255 : level | 0;
      }
      pixels[row + x] = 0xff000000 | (level << 16) | (level << 8) | level;
    }
  }
  return { data: out, width, height };
}
