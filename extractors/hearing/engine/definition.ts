// The acoustic model's definition in, which phone's codebook each of its senones draws on out. The file says itself how it is laid out.

const MAGIC_AND_VERSION_BYTES = 8;
const COUNTS = [
  "phones",
  "triphones",
  "states",
  "ownSenones",
  "senones",
  "matrices",
  "sequences",
  "contexts",
  "nodes",
  "silence",
] as const;
const NODE_BYTES = 8;
/** Number of the sequence of senones, of the transition matrix, place in the word and the phone with its two neighbours. */
const PHONE_BYTES = 12;
const PHONE_AT = 9;
const LENGTH_BYTES = 4;

const upToFour = (bytes: number) => Math.ceil(bytes / 4) * 4;

/** Number of the codebook of each senone of a model in whose definition every phone has one of its own. */
export function codebooksOf(definition: Uint8Array): Uint8Array {
  const view = new DataView(definition.buffer, definition.byteOffset, definition.byteLength);
  const counts = MAGIC_AND_VERSION_BYTES + LENGTH_BYTES + view.getInt32(MAGIC_AND_VERSION_BYTES, true);
  const count = (name: (typeof COUNTS)[number]) => view.getInt32(counts + 4 * COUNTS.indexOf(name), true);
  const names = counts + 4 * COUNTS.length;
  let end = names;
  for (let phone = 0; phone < count("phones"); phone += 1) end = definition.indexOf(0, end) + 1;
  const phones = names + upToFour(end - names) + count("nodes") * NODE_BYTES;
  const sequences = phones + count("triphones") * PHONE_BYTES + LENGTH_BYTES;
  const states = count("states");
  if (sequences + count("sequences") * states * 2 !== definition.length)
    throw new Error("Expected a definition of an acoustic model with as many states a phone, got another");
  const codebooks = new Uint8Array(count("senones"));
  for (let triphone = 0; triphone < count("triphones"); triphone += 1) {
    const at = phones + triphone * PHONE_BYTES;
    const phone = triphone < count("phones") ? triphone : (definition[at + PHONE_AT] ?? 0);
    const sequence = sequences + view.getInt32(at, true) * states * 2;
    for (let state = 0; state < states; state += 1) codebooks[view.getUint16(sequence + state * 2, true)] = phone;
  }
  return codebooks;
}
