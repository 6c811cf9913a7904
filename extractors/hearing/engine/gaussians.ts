// The Gaussians of the acoustic model, out of its parameter files and back into one: a codebook of densities a phone, in three
// streams (cepstra, their slopes, the slopes of those), shared by the phone's senones through weights ("phonetically tied").
import type { Model } from "./model.ts";

/** The model's phones in the order of its codebooks: as in its definition, silence and noises among them. */
const CODEBOOKS =
  "+NSN+ +SPN+ AA AE AH AO AW AY B CH D DH EH ER EY F G HH IH IY JH K L M N NG OW OY P R S SH SIL T TH UH UW V W Y Z ZH".split(
    " ",
  );

/** Whether a codebook is a phone's: those of silence and of noises belong to no voice. */
export const isPhone = (codebook: number): boolean => /^(?!SIL$)[A-Z]+$/.test(CODEBOOKS[codebook] ?? "");

/** Number of a phone's codebook; undefined for silence and noises. */
export function codebookOf(phone: string): number | undefined {
  const codebook = CODEBOOKS.indexOf(phone);
  return isPhone(codebook) ? codebook : undefined;
}

export const STREAMS = 3;
export const DENSITIES = 128;
/** Numbers a frame in each stream. */
export const WIDTH = 13;
/** All Gaussians; number `(codebook * STREAMS + stream) * DENSITIES + density`. */
export const GAUSSIANS = CODEBOOKS.length * STREAMS * DENSITIES;

/** No variance is smaller: a density that training hardly reached would make its frames worth more than all others. */
const LEAST_VARIANCE = 0.01;
/** Weights are kept as bytes, in this many natural-log units below 1 (the recogniser's log base 1.0001, shifted by ten bits). */
const WEIGHT_UNIT = 1024 * Math.log(1.0001);

/** Text header, byte-order mark and the seven counts before the numbers of a parameter file. */
const HEADER_END = "endhdr\n";
const COUNTS_BYTES = 28;
const ORDER_BYTES = 4;

const headerEnd = (file: Uint8Array): number => {
  const text = new TextDecoder("latin1").decode(file.subarray(0, 200));
  const at = text.indexOf(HEADER_END);
  if (at < 0) throw new Error("Expected a parameter file of the acoustic model, got another");
  return at + HEADER_END.length + ORDER_BYTES;
};

function numbersOf(file: Uint8Array): Float32Array {
  const at = headerEnd(file) + COUNTS_BYTES;
  const bytes = file.slice(at, at + GAUSSIANS * WIDTH * 4);
  if (bytes.length !== GAUSSIANS * WIDTH * 4) throw new Error("Expected the parameters of every Gaussian, got fewer");
  return new Float32Array(bytes.buffer);
}

/** The running sum over counts and numbers that closes a parameter file. */
function checksum(file: Uint8Array): number {
  const view = new DataView(file.buffer, file.byteOffset);
  let sum = 0;
  for (let at = headerEnd(file); at < file.length - 4; at += 4)
    sum = ((((sum << 20) | (sum >>> 12)) >>> 0) + view.getUint32(at, true)) >>> 0;
  return sum;
}

/** What tells which densities a frame goes to. */
export type Mixtures = Pick<Gaussians, "means" | "variances" | "logVariances" | "logWeight">;

export class Gaussians {
  /** Means and variances, `WIDTH` numbers a Gaussian. */
  readonly means: Float32Array;
  readonly variances: Float32Array;
  /** Natural log of the product of a Gaussian's variances, one number a Gaussian. */
  readonly logVariances: Float64Array;
  /** Tells this model from another. */
  readonly fingerprint: number;
  readonly #meansFile: Uint8Array;
  readonly #weights: Uint8Array;
  readonly #senones: number;

  constructor({ files }: Model) {
    this.#meansFile = files.means;
    this.means = numbersOf(files.means);
    this.variances = numbersOf(files.variances).map((variance) => Math.max(LEAST_VARIANCE, variance));
    this.logVariances = new Float64Array(GAUSSIANS);
    this.variances.forEach((variance, at) => {
      const gaussian = Math.floor(at / WIDTH);
      this.logVariances[gaussian] = (this.logVariances[gaussian] ?? 0) + Math.log(variance);
    });
    this.fingerprint = checksum(files.means);
    // Of the weights' file the header's length varies; what follows it is one byte a stream, density and senone.
    const view = new DataView(files.sendump.buffer, files.sendump.byteOffset);
    let at = 0;
    for (let length = view.getInt32(at, true); length !== 0; length = view.getInt32(at, true)) at += 4 + length;
    this.#senones = view.getInt32(at + 8, true);
    this.#weights = files.sendump.subarray(at + 12);
    if (this.#weights.length !== STREAMS * DENSITIES * this.#senones)
      throw new Error("Expected a weight a density and senone, got another number");
  }

  /** Natural log of a density's weight in a senone. */
  logWeight(stream: number, density: number, senone: number): number {
    return -WEIGHT_UNIT * (this.#weights[(stream * DENSITIES + density) * this.#senones + senone] ?? 255);
  }

  /** The same with other means. */
  movedTo(means: Float32Array): Mixtures {
    const { variances, logVariances } = this;
    return { means, variances, logVariances, logWeight: (stream, density, senone) => this.logWeight(stream, density, senone) };
  }

  /** The model's file of means with other means in it. */
  fileWith(means: Float32Array): Uint8Array {
    const file = this.#meansFile.slice();
    file.set(new Uint8Array(means.buffer, means.byteOffset, means.byteLength), headerEnd(file) + COUNTS_BYTES);
    new DataView(file.buffer).setUint32(file.length - 4, checksum(file), true);
    return file;
  }
}
