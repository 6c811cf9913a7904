// Speaks for speak.py: a JSON line in ({text, voice, tempo, pitch, out}), a WAV file and "ok" out. The package's own entry cannot set the
// pitch, so the configuration file is written here.
import { readFileSync, writeFileSync } from "node:fs";
import path from "node:path";
import { createInterface } from "node:readline";
import { pathToFileURL } from "node:url";

const folder = process.argv[2];
const { default: open } = await import(pathToFileURL(path.join(folder, "wasm/gnuspeech.js")).href);
const config = readFileSync(path.join(folder, "data/en/trm_control_model.txt"), "utf8");
const module = await open();

const text = (value) => {
  const bytes = new TextEncoder().encode(`${value}\0`);
  const at = module._malloc(bytes.length);
  module.HEAPU8.set(bytes, at);
  return at;
};

for await (const line of createInterface({ input: process.stdin })) {
  const { text: said, voice, tempo, pitch, out } = JSON.parse(line);
  const own = config
    .replace("voice_name = male", `voice_name = ${voice}`)
    .replace("tempo = 1.0", `tempo = ${tempo}`)
    .replace("pitch_offset = -4.0", `pitch_offset = ${pitch.toFixed(1)}`);
  module.FS.writeFile("/data/en/trm_control_model.txt", own);
  const places = [said, "./out.wav", "/data/en", "./out-params.txt"].map(text);
  try {
    module._GnuSpeech_synthesizeToFile(...places, 0);
    writeFileSync(out, module.FS.readFile("./out.wav"));
    process.stdout.write("ok\n");
  } catch {
    process.stdout.write("failed\n");
  }
  for (const at of places) module._free(at);
}
