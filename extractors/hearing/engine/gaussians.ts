// The Gaussians of the acoustic model, out of its parameter files and back into one: a codebook of densities a phone, in three
// streams (cepstra, their slopes, the slopes of those), shared by the phone's senones through weights ("phonetically tied").
import type { GaussianFiles, Model } from "./model.ts";
import { checksum, numbersOf, parameterFile } from "./parameters.ts";
import { MixtureWeights } from "./weights.ts";

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

/** What tells which densities a frame goes to. */
export type Mixtures = Pick<Gaussians, "means" | "variances" | "logVariances" | "logWeight">;

export class Gaussians {
  /** Means and variances, `WIDTH` numbers a Gaussian. */
  readonly means: Float32Array;
  readonly variances: Float32Array;
  /** Natural log of the product of a Gaussian's variances, one number a Gaussian. */
  readonly logVariances: Float64Array;
  readonly weights: MixtureWeights;
  /** Tells this model from another. */
  readonly fingerprint: number;
  readonly files: Model["files"];

  constructor({ files }: Model) {
    this.files = files;
    this.means = numbersOf(files.means, GAUSSIANS * WIDTH);
    this.variances = numbersOf(files.variances, GAUSSIANS * WIDTH).map((variance) => Math.max(LEAST_VARIANCE, variance));
    this.logVariances = new Float64Array(GAUSSIANS);
    this.variances.forEach((variance, at) => {
      const gaussian = Math.floor(at / WIDTH);
      this.logVariances[gaussian] = (this.logVariances[gaussian] ?? 0) + Math.log(variance);
    });
    this.weights = new MixtureWeights(files.sendump, STREAMS, DENSITIES);
    this.fingerprint = checksum(files.means);
  }

  /** Natural log of a density's weight in a senone. */
  logWeight(stream: number, density: number, senone: number): number {
    return this.weights.log(stream, density, senone);
  }

  /** The same with other means. */
  movedTo(means: Float32Array): Mixtures {
    const { variances, logVariances } = this;
    return { means, variances, logVariances, logWeight: (stream, density, senone) => this.logWeight(stream, density, senone) };
  }

  /** The model's files with other means in them. */
  filesWith(means: Float32Array): GaussianFiles {
    const { variances, sendump } = this.files;
    return { means: parameterFile(this.files.means, means, DENSITIES), variances, sendump };
  }
}
