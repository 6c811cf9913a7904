// Draws the demo build's pictures anew: `npm run demo:photos`. Seeded, so the same pictures come out every time.
// `npm run demo:photos -- --times` only writes their camera times anew, after a change of the day book.
import { mkdir, readFile, writeFile } from "node:fs/promises";
import sharp from "sharp";
import { defs, ground, HEIGHT, light, smallPrint, smears, WIDTH } from "./drawing/kit.ts";
import { randomFrom } from "./drawing/random.ts";
import { RECIPES, type Recipe } from "./drawing/recipes.ts";
import { tagCard } from "./drawing/tag-card.ts";
import { DEMO_PHOTOS } from "./photos.ts";

/** Bytes above which a picture is saved at a lower quality: the demo travels with the project. */
const LARGEST = 280_000;
const FOLDER = new URL("./photos/", import.meta.url);

/** Exif block with the camera's time and its offset (tag names of Exif 2.32). */
function exifOf(taken: string) {
  const time = taken.slice(0, 19).replaceAll("-", ":").replace("T", " ");
  const offset = taken.slice(19);
  return {
    IFD0: { ImageDescription: "Drawn for the demo", DateTime: time },
    IFD2: {
      DateTimeOriginal: time,
      OffsetTimeOriginal: offset,
      DateTimeDigitized: time,
      OffsetTimeDigitized: offset,
      OffsetTime: offset,
    },
  };
}

function svgOf(recipe: Recipe, seed: number): string {
  const random = randomFrom(seed * 7919 + 11);
  const [x, y] = [WIDTH / 2 + recipe.shift[0], HEIGHT / 2 + recipe.shift[1]];
  const [lampX, lampY, warm] = recipe.lamp;
  // The lamp stands where it stands, whichever way the part is turned under it.
  const azimuth = (Math.atan2(lampY - y, lampX - x) * 180) / Math.PI - recipe.turn;
  const part = `<g transform="translate(${x} ${y}) rotate(${recipe.turn}) scale(${recipe.zoom})">${recipe.scene(random)}</g>`;
  const card = recipe.card ? tagCard(recipe.card, recipe.card) : "";
  return `<svg xmlns="http://www.w3.org/2000/svg" width="${WIDTH}" height="${HEIGHT}" viewBox="0 0 ${WIDTH} ${HEIGHT}">${defs(seed, azimuth)}${ground(recipe.ground, seed)}${part}${smears(random, 5, x, y, 420)}${card}${light(lampX, lampY, warm)}${smallPrint}</svg>`;
}

/** The sensor's grain, laid over the drawing. */
async function grain(seed: number): Promise<Buffer> {
  const random = randomFrom(seed + 4242);
  const pixels = Buffer.alloc(WIDTH * HEIGHT);
  for (let at = 0; at < pixels.length; at += 1) pixels[at] = 128 + Math.round(random.between(-1, 1) * random.between(0, 13));
  return sharp(pixels, { raw: { width: WIDTH, height: HEIGHT, channels: 1 } })
    .toColourspace("srgb")
    .png({ compressionLevel: 1 })
    .toBuffer();
}

async function draw(recipe: Recipe, seed: number, taken: string): Promise<Buffer> {
  const drawn = await sharp(Buffer.from(svgOf(recipe, seed)))
    .flatten({ background: "#000" })
    .blur(recipe.blur ?? 0.6)
    .png({ compressionLevel: 1 })
    .toBuffer();
  const grained = await sharp(drawn)
    .composite([{ input: await grain(seed), blend: "soft-light" }])
    .png({ compressionLevel: 1 })
    .toBuffer();
  const encode = (quality: number) =>
    sharp(grained).jpeg({ quality, chromaSubsampling: "4:2:0" }).withExif(exifOf(taken)).toBuffer();
  const first = await encode(80);
  return first.length <= LARGEST ? first : encode(68);
}

/** Writes the camera's time anew into a picture drawn before: the texts are equally long, nothing else changes. */
async function restamp(file: string, taken: string): Promise<void> {
  const bytes = await readFile(new URL(file, FOLDER));
  const { exif } = await sharp(bytes).metadata();
  const old = /\d{4}:\d\d:\d\d \d\d:\d\d:\d\d/.exec(exif?.toString("latin1") ?? "")?.[0];
  if (old === undefined) throw new Error(`Expected a camera time in ${file}, got none`);
  for (let at = bytes.indexOf(old); at >= 0; at = bytes.indexOf(old, at + 1))
    bytes.write(exifOf(taken).IFD0.DateTime, at, "latin1");
  await writeFile(new URL(file, FOLDER), bytes);
}

async function drawAll(only: readonly string[]): Promise<void> {
  await mkdir(FOLDER, { recursive: true });
  for (const [index, photo] of DEMO_PHOTOS.entries()) {
    const recipe = RECIPES.find(({ file }) => file === photo.file);
    if (only.length > 0 && !only.some((name) => photo.file.startsWith(name))) continue;
    if (recipe) await writeFile(new URL(photo.file, FOLDER), await draw(recipe, index + 1, photo.taken));
  }
  // The trap: the first rod's strip, saved again a little smaller, as somebody would who forgot to take the picture.
  const again = sharp(await readFile(new URL("gauge-strip-1.jpg", FOLDER)))
    .resize(1440)
    .keepExif();
  await writeFile(new URL("gauge-strip-4.jpg", FOLDER), await again.jpeg({ quality: 74 }).toBuffer());
}

const wanted = process.argv.slice(2);
if (wanted[0] === "--times") for (const { file, taken } of DEMO_PHOTOS) await restamp(file, taken);
else await drawAll(wanted);
