// A layered map or list does what a changed copy does, in the same order, and what lies below stays as it was.
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { LayeredList, LayeredMap, LayeredSet } from "../../../shared/build/layers.ts";

type Box = { n: number };
const boxes = (count: number) => Array.from({ length: count }, (_, n): Box => ({ n }));

/** Lends one copy of each box, as a draft does. */
function lender(): (box: Box) => Box {
  const copies = new Map<Box, Box>();
  return (box) => {
    const copy = copies.get(box) ?? { ...box };
    copies.set(box, copy);
    return copy;
  };
}

describe("a layered map", () => {
  const change = fc.oneof(
    fc.record({ do: fc.constant("set" as const), key: fc.nat(9), n: fc.nat(99) }),
    fc.record({ do: fc.constant("delete" as const), key: fc.nat(9) }),
    fc.record({ do: fc.constant("write" as const), key: fc.nat(9), n: fc.nat(99) }),
  );

  it("is what a changed copy is, after any changes", () => {
    fc.assert(
      fc.property(fc.nat(6), fc.array(change, { maxLength: 30 }), (size, changes) => {
        const below = new Map(boxes(size).map((box) => [box.n, box]));
        const copy = new Map([...below].map(([key, box]) => [key, { ...box }]));
        const layer = new LayeredMap(below, lender());
        for (const one of changes) {
          for (const map of [copy, layer]) {
            if (one.do === "set") map.set(one.key, { n: one.n });
            else if (one.do === "delete") map.delete(one.key);
            else {
              const box = map.get(one.key);
              if (box !== undefined) box.n = one.n;
            }
          }
          expect([...layer]).toEqual([...copy]);
          expect(layer.size).toBe(copy.size);
          expect(layer.has(one.key)).toBe(copy.has(one.key));
        }
        expect([...below]).toEqual(boxes(size).map((box) => [box.n, box]));
      }),
    );
  });
});

describe("a layered list", () => {
  const change = fc.oneof(
    fc.record({ do: fc.constant("push" as const), n: fc.nat(99) }),
    fc.record({ do: fc.constant("splice" as const), at: fc.nat(12), count: fc.nat(2), n: fc.option(fc.nat(99)) }),
    fc.record({ do: fc.constant("write" as const), at: fc.integer({ min: -12, max: 12 }), n: fc.nat(99) }),
  );

  it("is what a changed copy is, after any changes", () => {
    fc.assert(
      fc.property(fc.nat(8), fc.array(change, { maxLength: 30 }), (size, changes) => {
        const below = boxes(size);
        const copy = below.map((box) => ({ ...box }));
        const layer = new LayeredList(below, lender());
        for (const one of changes) {
          const results = [copy, layer].map((list) => {
            if (one.do === "push") return list.push({ n: one.n });
            if (one.do === "splice") {
              const items = one.n === null ? [] : [{ n: one.n }];
              return list.splice(Math.min(one.at, list.length), one.count, ...items);
            }
            const box = list.at(one.at);
            if (box !== undefined) box.n = one.n;
            return box;
          });
          expect(results[1]).toEqual(results[0]);
          expect([...layer]).toEqual(copy);
          expect(layer.length).toBe(copy.length);
          expect(layer.findLast(({ n }) => n % 3 === 0)).toEqual(copy.findLast(({ n }) => n % 3 === 0));
        }
        expect(below).toEqual(boxes(size));
      }),
    );
  });
});

describe("a layered set", () => {
  it("holds both, counts an item once, and lets nothing of the one below go", () => {
    const below = new Set(["a", "b"]);
    const layer = new LayeredSet(below);
    layer.add("b").add("c");
    expect([..."abcd"].map((item) => layer.has(item))).toEqual([true, true, true, false]);
    expect(layer.size).toBe(3);
    expect(below.size).toBe(2);
    expect(() => layer.delete("a")).toThrow(RangeError);
  });
});
