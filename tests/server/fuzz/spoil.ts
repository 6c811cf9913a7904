// Good input spoiled at random: values of JSON, bytes of a file, words of an address.
import fc from "fast-check";

/** What trips programs up: ends of ranges, other people's syntax, letters that are not what they look like. */
const TRICKS: readonly unknown[] = [
  null,
  true,
  "",
  " ",
  0,
  -0,
  -1,
  1e308,
  2 ** 53,
  0.1,
  "0",
  "1e999",
  "NaN",
  "\u0000",
  "\u202e",
  "\ud800",
  "' OR 1=1 --",
  '"; DROP TABLE event; --',
  "../../etc/passwd",
  "..%2f..%2f",
  "%",
  "%00",
  "%ff",
  "<script>alert(1)</script>",
  "constructor",
  "__proto__",
  "toString",
  "9".repeat(400),
  "é".repeat(61),
  "2026-02-30T25:61:61Z",
  "2026-03-04T10:11:12+01:00",
  "00000000-0000-0000-0000-000000000000",
  "f".repeat(64),
  [],
  {},
  [[[[[[]]]]]],
];

export const trick = fc.constantFrom(...TRICKS);
export const trickText = fc.oneof(
  trick.map((value) => (typeof value === "string" ? value : JSON.stringify(value))),
  fc.string({ unit: "binary", maxLength: 40 }),
);
const anyJson = fc.oneof({ weight: 3, arbitrary: trick }, { weight: 1, arbitrary: fc.jsonValue({ maxDepth: 3 }) });

type Json = unknown;
type Path = readonly (string | number)[];

function pathsOf(value: Json, path: Path = []): Path[] {
  if (value === null || typeof value !== "object") return [path];
  return [path, ...Object.entries(value).flatMap(([key, item]) => pathsOf(item, [...path, key]))];
}

/** The value with what stands at `path` made anew; undefined takes it out. */
function changed(value: Json, path: Path, change: (old: Json) => Json): Json {
  const [key, ...rest] = path;
  if (key === undefined) return change(value);
  const copy: Record<string | number, Json> = Array.isArray(value) ? ([...value] as never) : { ...(value as object) };
  const next = changed(copy[key], rest, change);
  if (next === undefined && !Array.isArray(copy)) delete copy[key];
  else copy[key] = next;
  return copy;
}

const CHANGES: readonly ((old: Json, other: Json) => Json)[] = [
  (_old, other) => other,
  () => undefined,
  (old) => [old, old],
  (old, other) => ({ ...(typeof old === "object" ? old : { old }), [typeof other === "string" ? other : "extra"]: other }),
  (old) => (typeof old === "number" ? -old * 1e6 : typeof old === "string" ? old.repeat(50) : old),
];

/** One of the samples with up to three of its values spoiled. */
export function spoiledJson(samples: readonly Json[]): fc.Arbitrary<Json> {
  const change = fc.record({ at: fc.nat(), how: fc.nat(CHANGES.length - 1), other: anyJson });
  return fc.tuple(fc.constantFrom(...samples), fc.array(change, { maxLength: 3 })).map(([sample, changes]) =>
    changes.reduce((value, { at, how, other }) => {
      const paths = pathsOf(value);
      return changed(value, paths[at % paths.length] ?? [], (old) => CHANGES[how]?.(old, other)) ?? null;
    }, sample),
  );
}

/** One of the samples with some bytes changed, cut out or put in, and perhaps its end missing. */
export function spoiledBytes(samples: readonly Uint8Array[]): fc.Arbitrary<Uint8Array> {
  const change = fc.record({ at: fc.nat(), bytes: fc.uint8Array({ maxLength: 8 }), over: fc.nat(16) });
  const parts = fc.tuple(fc.constantFrom(...samples), fc.array(change, { maxLength: 6 }), fc.option(fc.nat(), { freq: 3 }));
  const spoiled = parts.map(([sample, changes, end]) => {
    let bytes = Buffer.from(sample);
    for (const { at, bytes: put, over } of changes) {
      const from = bytes.length === 0 ? 0 : at % bytes.length;
      bytes = Buffer.concat([bytes.subarray(0, from), put, bytes.subarray(from + over)]);
    }
    return end === null ? bytes : bytes.subarray(0, end % (bytes.length + 1));
  });
  return fc.oneof({ weight: 6, arbitrary: spoiled }, { weight: 1, arbitrary: fc.uint8Array({ maxLength: 300 }) });
}
