// Real human recordings that Debian carries: `pocketsphinx-testdata` (BSD; read digits and cards) and
// `asterisk-core-sounds-en-wav` (CC BY-SA 3.0; one speaker's digits and numbers, 8 kHz). Texts: the packages' own file names and
// cards.transcription. Where a package is not installed the test says so in one line and asserts nothing about it.
import { existsSync, readdirSync, readFileSync } from "node:fs";
import { afterAll, beforeAll, describe, expect, it } from "vitest";
import { type Heard, type Hearer, readWav, understand, writeWav } from "../../../extractors/hearing/index.ts";
import { openHearer } from "../../../extractors/hearing/node/index.ts";
import type { Context } from "../../../shared/events/reading.ts";
import { DEMO_SPEC } from "../../../shared/spec/demo-engine.ts";

const SPHINX = "/usr/share/pocketsphinx/test/data";
const SOUNDS = "/usr/share/asterisk/sounds";
/** The folder of the American English woman's prompts, whatever its package calls it. */
const voice = existsSync(SOUNDS) ? readdirSync(SOUNDS).find((name) => name.startsWith("en_US_f_")) : undefined;
const PROMPTS = `${SOUNDS}/${voice ?? "none"}`;

const BORE: Context = { quantity: "bore_diameter", place: { cylinder: 2, depth: "top", axis: "thrust" } };
const PRESSURE: Context = { quantity: "compression_pressure", place: { cylinder: 2 } };
const NUT: Context = { quantity: "fastener_torque", place: { fastener: "rod", rod: 2, nut: "a" } };

let hearer: Hearer;
beforeAll(() => {
  hearer = openHearer();
});
afterAll(() => hearer.close());

const hear = (pcm: Float32Array, rate: number, context: Context): Promise<Heard> =>
  hearer.hear(pcm, rate, { spec: DEMO_SPEC, context });

/** Her recording of a number. */
const herNumber = (name: string) => readWav(readFileSync(`${PROMPTS}/digits/${name}.wav`));

/** Headerless 16-bit samples at 16 kHz, as that package keeps some recordings. */
function rawSound(file: string): Float32Array {
  const bytes = readFileSync(file);
  return Float32Array.from(new Int16Array(bytes.buffer, bytes.byteOffset, bytes.length / 2), (sample) => sample / 32768);
}

/** The files where they are; else one line that says what is not checked. */
function there(folder: string, debian: string): boolean {
  if (existsSync(folder)) return true;
  process.stderr.write(`not checked: real recordings of ${debian} are not installed (apt-get install ${debian})\n`);
  return false;
}

function joined(parts: readonly Float32Array[], rate: number): Float32Array {
  const gap = new Float32Array(Math.round(rate * 0.06));
  const all = parts.flatMap((part) => [gap, part]);
  const pcm = new Float32Array(all.reduce((sum, part) => sum + part.length, 0));
  let at = 0;
  for (const part of all) {
    pcm.set(part, at);
    at += part.length;
  }
  return pcm;
}

describe("real human speech", () => {
  it("is never taken for readings when it is other talk", async () => {
    if (!there(SPHINX, "pocketsphinx-testdata")) return;
    const files = [0, 1, 2, 3, 4]
      .map((n) => `${SPHINX}/librivox/sense_and_sensibility_01_austen_64kb-08${n}0.wav`)
      .filter((file) => existsSync(file));
    const talk = [...files, `${SPHINX}/librivox/sense_and_sensibility_01_austen_64kb-0930.wav`].map((file) =>
      readWav(readFileSync(file)),
    );
    for (const { pcm, rate } of talk) {
      const parsed = understand(await hear(pcm, rate, {}), {}, DEMO_SPEC);
      expect(parsed.readings.filter((reading) => reading.do === "accept")).toEqual([]);
    }
    expect(talk.length).toBeGreaterThan(0);
  });

  it("reads a man's digits two nine three four zero", async () => {
    if (!there(SPHINX, "pocketsphinx-testdata")) return;
    // Recorded and named dhd.2934z; a spec sheet whose bore begins with 2 makes it a read-out.
    const spec = { ...DEMO_SPEC, id: "two-inch-bore", nominals: { ...DEMO_SPEC.nominals, bore: ["2.9100"] } };
    const heard = await hearer.hear(rawSound(`${SPHINX}/tidigits/dhd.2934z.raw`), 16_000, { spec, context: BORE });
    expect(heard.text).toBe("two nine three four zero");
  });

  it("reads a woman's telephone-band numbers, and none of them silently wrong", async () => {
    if (!there(PROMPTS, "asterisk-core-sounds-en-wav")) return;
    let right = 0;
    const numbers = [10, 11, 12, 13, 15, 17, 19, 20, 30, 50, 70, 90];
    for (const number of numbers) {
      const { pcm, rate } = herNumber(String(number));
      const heard = await hear(pcm, rate, NUT);
      const [reading] = understand(heard, NUT, DEMO_SPEC).readings;
      if (reading?.value === number) right += 1;
      else expect(reading?.do, `${number} heard as ${heard.text}`).not.toBe("accept");
    }
    expect(right / numbers.length).toBeGreaterThanOrEqual(0.8);
  });

  it("reads her five-digit bores", async () => {
    if (!there(PROMPTS, "asterisk-core-sounds-en-wav")) return;
    let right = 0;
    const sizes = ["38841", "38763", "39054", "38802", "38795", "39016"];
    for (const digits of sizes) {
      const heard = await hear(
        joined(
          [...digits].map((name) => herNumber(name).pcm),
          8000,
        ),
        8000,
        BORE,
      );
      const [reading] = understand(heard, BORE, DEMO_SPEC).readings;
      if (reading?.value === Number(digits) / 10_000) right += 1;
      else expect(reading?.do, `${digits} heard as ${heard.text}`).not.toBe("accept");
    }
    expect(right / sizes.length).toBeGreaterThanOrEqual(0.8);
  });

  it.each([
    ["50", "fifty one"],
    ["60", "sixty one"],
    ["70", "seventy one"],
  ])("hears her long one after %s for no place, though she was never heard before", async (ten, words) => {
    if (!there(PROMPTS, "asterisk-core-sounds-en-wav")) return;
    const stranger = openHearer();
    const pcm = joined(
      [ten, "1"].map((name) => herNumber(name).pcm),
      8000,
    );
    const { text } = await stranger.hear(pcm, 8000, { spec: DEMO_SPEC, context: PRESSURE });
    stranger.close();
    expect(text).toBe(words);
  });

  it("takes nothing of what else she says on the telephone for a reading", async () => {
    if (!there(PROMPTS, "asterisk-core-sounds-en-wav")) return;
    // Of 445 of these prompts with six contexts in turn none was accepted; ten of them, numbers among them.
    const said = "queue-quantity1 vm-INBOX dir-multi2 vm-and vm-savedto to-extension conf-getpin number vm-from spy-dahdi".split(
      " ",
    );
    for (const [index, name] of said.entries()) {
      const context = index % 2 === 0 ? NUT : BORE;
      const { pcm, rate } = readWav(readFileSync(`${PROMPTS}/${name}.wav`));
      const { readings } = understand(await hear(pcm, rate, context), context, DEMO_SPEC);
      expect(
        readings.filter((reading) => reading.do === "accept"),
        name,
      ).toEqual([]);
    }
  }, 60_000);

  it("hears the same at other rates and as a WAV written and read back", async () => {
    if (!there(PROMPTS, "asterisk-core-sounds-en-wav")) return;
    const { pcm, rate } = herNumber("30");
    const again = readWav(writeWav({ pcm, rate }));
    expect((await hear(again.pcm, again.rate, NUT)).text).toContain("thirty");
  });
});
