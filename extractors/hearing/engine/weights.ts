// The weights of the densities in each senone, out of their file and back into one: a header of texts, two counts, and one byte a
// stream, density and senone.

/** Weights are kept as bytes, in this many natural-log units below 1 (the recogniser's log base 1.0001, shifted by ten bits). */
const WEIGHT_UNIT = 1024 * Math.log(1.0001);
const LEAST = 255;
/** The end of the texts, the number of densities and that of senones. */
const COUNTS_BYTES = 12;
const DENSITIES_BEFORE_END = 8;

export class MixtureWeights {
  readonly #file: Uint8Array;
  /** Where the weights begin. */
  readonly #first: number;
  readonly #streams: number;
  readonly #densities: number;
  readonly senones: number;

  constructor(file: Uint8Array, streams: number, densities: number) {
    const view = new DataView(file.buffer, file.byteOffset);
    let at = 0;
    for (let length = view.getInt32(at, true); length !== 0; length = view.getInt32(at, true)) at += 4 + length;
    this.#file = file;
    this.#first = at + COUNTS_BYTES;
    this.#streams = streams;
    this.#densities = densities;
    this.senones = view.getInt32(this.#first - 4, true);
    if (file.length - this.#first !== streams * densities * this.senones)
      throw new Error("Expected a weight a density and senone, got another number");
  }

  #at(stream: number, density: number, senone: number): number {
    return this.#first + (stream * this.#densities + density) * this.senones + senone;
  }

  /** Natural log of a density's weight in a senone. */
  log(stream: number, density: number, senone: number): number {
    return -WEIGHT_UNIT * (this.#file[this.#at(stream, density, senone)] ?? LEAST);
  }

  /** A file with `count` densities a stream: of each stream and senone the `count` that `densitiesOf` gives, in that order. */
  fileOf(count: number, densitiesOf: (stream: number, senone: number) => readonly number[]): Uint8Array {
    const file = new Uint8Array(this.#first + this.#streams * count * this.senones);
    file.set(this.#file.subarray(0, this.#first));
    new DataView(file.buffer).setInt32(this.#first - DENSITIES_BEFORE_END, count, true);
    for (let stream = 0; stream < this.#streams; stream += 1)
      for (let senone = 0; senone < this.senones; senone += 1)
        densitiesOf(stream, senone).forEach((density, index) => {
          const at = this.#first + (stream * count + index) * this.senones + senone;
          file[at] = this.#file[this.#at(stream, density, senone)] ?? LEAST;
        });
    return file;
  }
}
