// The recogniser's WebAssembly module as this project uses it: a few raw calls beside the library's own classes.
// The library types only its JavaScript layer; the calls with an underscore are exports of the same build.

export interface RawDecoder {
  readonly cdecoder: number;
  /** Set by whoever loads the model: the library's own way loads it from files, once for each decoder. */
  initialized: boolean;
  get_config(key: string): number;
  delete(): void;
  start(): void;
  stop(): void;
  process_audio(pcm: Float32Array, noSearch?: boolean, fullUtterance?: boolean): number;
  get_alignment(options?: { readonly align_level: 0 | 1 | 2 }): Segment;
  /** Make these words, in any of their pronunciations, the grammar. Throws for a word without a line in the dictionary. */
  set_align_text(text: string): void;
  /** Log energies of the front end's bands, a row a frame. */
  spectrogram(pcm: Float32Array): Spectrum;
}

/** `nfr` frames of `nfeat` bands, row by row. */
export interface Spectrum {
  readonly data: Float32Array;
  readonly nfr: number;
  readonly nfeat: number;
}

/** One stretch of the result: `t` words (or a phone, or the number of a senone), `b` begin and `d` duration in seconds. */
export interface Segment {
  readonly t: string;
  readonly b: number;
  readonly d: number;
  readonly p: number;
  readonly w?: readonly Segment[];
}

export interface EngineModule {
  readonly HEAPU8: Uint8Array;
  readonly HEAP32: Int32Array;
  readonly Decoder: new (config: Record<string, string | number | boolean>) => RawDecoder;
  _malloc(bytes: number): number;
  _free(at: number): void;
  _s3file_init(at: number, bytes: number): number;
  _s3file_free(file: number): void;
  _bin_mdef_read_s3file(file: number, contextFree: number): number;
  _set_mdef(decoder: number, mdef: number): void;
  _decoder_logmath(decoder: number): number;
  _tmat_init_s3file(file: number, logmath: number, floor: number): number;
  _set_tmat(decoder: number, tmat: number): void;
  _load_gmm(decoder: number, means: number, variances: number, weights: number, sendump: number): number;
  _decoder_init_cleanup(decoder: number): number;
  _decoder_init_fe(decoder: number): number;
  _decoder_init_feat_s3file(decoder: number, transform: number): number;
  _decoder_init_acmod_pre(decoder: number): number;
  _decoder_init_acmod_post(decoder: number): number;
  _decoder_init_grammar_s3file(decoder: number, fsg: number, jsgf: number): number;
  _decoder_init_dict_s3file(decoder: number, dictionary: number, noise: number): number;
  _decoder_hyp(decoder: number, score: number): number;
}

export type EngineFactory = (options: {
  modelBase: string;
  print?: unknown;
  printErr?: unknown;
  locateFile?: unknown;
}) => Promise<unknown>;
