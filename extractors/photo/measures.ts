// Grey pixels in, what can be measured of a picture out: focus, clipping, difference hash. Same code in browser and server.

/** One byte a pixel, row by row. */
export interface Grey {
  readonly data: Uint8Array | Uint8ClampedArray;
  readonly width: number;
  readonly height: number;
}

/** Longest side at which focus is measured: the figure depends on size, so there is one size. */
export const MEASURE_SIZE = 1024;
/** Grey levels counted as clipped: an encoder moves pure black and white by a few levels. */
const WHITE = 251;
const BLACK = 4;

/**
 * Variance of the 4-neighbour Laplacian: higher is sharper, 0 for an even grey.
 * Source: Pech-Pacheco et al., "Diatom autofocusing in brightfield microscopy", ICPR 2000.
 */
export function focusOf({ data, width, height }: Grey): number {
  if (width < 3 || height < 3) return 0;
  let sum = 0;
  let squares = 0;
  for (let y = 1; y < height - 1; y += 1) {
    const row = y * width;
    let left = data[row] as number;
    let here = data[row + 1] as number;
    for (let at = row + 1; at < row + width - 1; at += 1) {
      const right = data[at + 1] as number;
      const value = left + right + (data[at - width] as number) + (data[at + width] as number) - 4 * here;
      sum += value;
      squares += value * value;
      left = here;
      here = right;
    }
  }
  const count = (width - 2) * (height - 2);
  const mean = sum / count;
  return squares / count - mean * mean;
}

/** Shares of pixels clipped to white and to black, 0..1. */
export function clippingOf({ data }: Grey): { highlights: number; shadows: number } {
  let white = 0;
  let black = 0;
  for (let at = 0; at < data.length; at += 1) {
    const level = data[at] as number;
    if (level >= WHITE) white += 1;
    else if (level <= BLACK) black += 1;
  }
  const count = Math.max(1, data.length);
  return { highlights: white / count, shadows: black / count };
}

/** Mean grey of each cell of a `columns` by `rows` grid laid over the picture. */
export function cellMeans({ data, width, height }: Grey, columns: number, rows: number): Float64Array {
  const sums = new Float64Array(columns * rows);
  const counts = new Float64Array(columns * rows);
  const column = Uint16Array.from({ length: width }, (_, x) => Math.floor((x * columns) / width));
  for (let y = 0; y < height; y += 1) {
    const line = Math.floor((y * rows) / height) * columns;
    let cell = 0;
    let sum = 0;
    let from = 0;
    for (let x = 0; x <= width; x += 1) {
      if (x < width && column[x] === cell) {
        sum += data[y * width + x] as number;
        continue;
      }
      // The run of one cell in this row has ended.
      sums[line + cell] = (sums[line + cell] as number) + sum;
      counts[line + cell] = (counts[line + cell] as number) + x - from;
      if (x === width) break;
      cell = column[x] as number;
      from = x;
      sum = data[y * width + x] as number;
    }
  }
  return sums.map((sum, cell) => sum / Math.max(1, counts[cell] as number));
}

/**
 * 64-bit difference hash as 16 hex digits: bit set where a cell of a 9 by 8 grid is brighter than its right neighbour.
 * Near-twins (another size, another quality) differ in few bits.
 */
export function fingerprintOf(grey: Grey): string {
  const means = cellMeans(grey, 9, 8);
  let hex = "";
  for (let row = 0; row < 8; row += 1) {
    let byte = 0;
    for (let column = 0; column < 8; column += 1) {
      const here = means[row * 9 + column] as number;
      const right = means[row * 9 + column + 1] as number;
      byte = byte * 2 + (here > right ? 1 : 0);
    }
    hex += byte.toString(16).padStart(2, "0");
  }
  return hex;
}

/** Grey from RGBA, ITU-R BT.601 weights, as a browser's canvas gives it. */
export function greyOfRgba(data: Uint8ClampedArray | Uint8Array, width: number, height: number): Grey {
  const grey = new Uint8Array(width * height);
  for (let at = 0, from = 0; at < grey.length; at += 1, from += 4) {
    grey[at] = ((data[from] as number) * 77 + (data[from + 1] as number) * 150 + (data[from + 2] as number) * 29) >> 8;
  }
  return { data: grey, width, height };
}
