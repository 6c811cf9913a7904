// A seed in, a repeatable stream of numbers out: the same pictures are drawn every time.

export interface Random {
  /** Even between `low` and `high`. */
  between(low: number, high: number): number;
  pick<T>(items: readonly [T, ...T[]]): T;
}

/** Mulberry32, a 32-bit generator in the public domain: enough for scratches and dirt. */
export function randomFrom(seed: number): Random {
  let state = seed >>> 0;
  const next = (): number => {
    state = (state + 0x6d2b79f5) >>> 0;
    let mixed = Math.imul(state ^ (state >>> 15), state | 1);
    mixed ^= mixed + Math.imul(mixed ^ (mixed >>> 7), mixed | 61);
    return ((mixed ^ (mixed >>> 14)) >>> 0) / 4294967296;
  };
  return {
    between: (low, high) => low + next() * (high - low),
    pick: (items) => items[Math.floor(next() * items.length)] ?? items[0],
  };
}
