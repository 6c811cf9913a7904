// Collections laid over others: they read through to what is below, and keep every change to themselves.
// What a draft of a build is made of. Making one costs nothing, however long what it lies over is.

/** The part of an array that the fold needs, so that a layer can stand in for one. */
export interface List<T> extends Iterable<T> {
  readonly length: number;
  at(index: number): T | undefined;
  findLast(wanted: (item: T) => boolean): T | undefined;
  push(item: T): number;
  splice(start: number, count: number, ...items: T[]): T[];
}

/** Gives the copy of something below that the layer may change; always the same one for the same thing. */
type Lend<T> = (below: T) => T;

/** A list over another: its beginning is the other's, from the first change on it is its own. */
export class LayeredList<T> implements List<T> {
  readonly #below: List<T>;
  readonly #lend: Lend<T>;
  /** How many items are still the other's. */
  #kept: number;
  #own: T[] = [];

  constructor(below: List<T>, lend: Lend<T> = (item) => item) {
    this.#below = below;
    this.#lend = lend;
    this.#kept = below.length;
  }

  get length(): number {
    return this.#kept + this.#own.length;
  }

  at(index: number): T | undefined {
    const at = index < 0 ? this.length + index : index;
    if (at >= this.#kept) return this.#own[at - this.#kept];
    // Within the list below, which may hold undefined itself only if T does.
    return at < 0 ? undefined : this.#lend(this.#below.at(at) as T);
  }

  findLast(wanted: (item: T) => boolean): T | undefined {
    for (let at = this.length - 1; at >= 0; at -= 1) {
      const item = this.at(at) as T;
      if (wanted(item)) return item;
    }
    return undefined;
  }

  push(item: T): number {
    this.#own.push(item);
    return this.length;
  }

  /** Costs as many steps as there are items from `start` to the end. `start` counts from the beginning. */
  splice(start: number, count: number, ...items: T[]): T[] {
    if (start < this.#kept) {
      const moved: T[] = [];
      for (let at = start; at < this.#kept; at += 1) moved.push(this.at(at) as T);
      this.#own = [...moved, ...this.#own];
      this.#kept = start;
    }
    return this.#own.splice(start - this.#kept, count, ...items);
  }

  *[Symbol.iterator](): IterableIterator<T> {
    for (let at = 0; at < this.length; at += 1) yield this.at(at) as T;
  }
}

/** A map over another, in the order that a changed copy of the other would have. */
export class LayeredMap<K, V> extends Map<K, V> {
  readonly #below: ReadonlyMap<K, V>;
  readonly #lend: Lend<V>;
  /** In the place of what is below. */
  readonly #over = new Map<K, V>();
  readonly #added = new Map<K, V>();
  readonly #gone = new Set<K>();

  constructor(below: ReadonlyMap<K, V>, lend: Lend<V> = (value) => value) {
    super();
    this.#below = below;
    this.#lend = lend;
  }

  #isBelow(key: K): boolean {
    return !this.#gone.has(key) && this.#below.has(key);
  }

  override get size(): number {
    return this.#below.size - this.#gone.size + this.#added.size;
  }

  override has(key: K): boolean {
    return this.#added.has(key) || this.#isBelow(key);
  }

  override get(key: K): V | undefined {
    if (!this.#isBelow(key)) return this.#added.get(key);
    if (!this.#over.has(key)) this.#over.set(key, this.#lend(this.#below.get(key) as V));
    return this.#over.get(key);
  }

  override set(key: K, value: V): this {
    (this.#isBelow(key) ? this.#over : this.#added).set(key, value);
    return this;
  }

  override delete(key: K): boolean {
    if (!this.#isBelow(key)) return this.#added.delete(key);
    this.#over.delete(key);
    this.#gone.add(key);
    return true;
  }

  override clear(): void {
    for (const key of [...this.keys()]) this.delete(key);
  }

  override *keys(): MapIterator<K> {
    for (const key of this.#below.keys()) if (!this.#gone.has(key)) yield key;
    yield* this.#added.keys();
  }

  override *values(): MapIterator<V> {
    for (const key of this.keys()) yield this.get(key) as V;
  }

  override *entries(): MapIterator<[K, V]> {
    for (const key of this.keys()) yield [key, this.get(key) as V];
  }

  override [Symbol.iterator](): MapIterator<[K, V]> {
    return this.entries();
  }

  override forEach(visit: (value: V, key: K, map: Map<K, V>) => void): void {
    for (const [key, value] of this.entries()) visit(value, key, this);
  }
}

/** A set over another that only grows. */
export class LayeredSet<T> extends Set<T> {
  readonly #below: ReadonlySet<T>;

  constructor(below: ReadonlySet<T>) {
    super();
    this.#below = below;
  }

  override get size(): number {
    return this.#below.size + super.size;
  }

  override has(item: T): boolean {
    return super.has(item) || this.#below.has(item);
  }

  override add(item: T): this {
    return this.#below.has(item) ? this : super.add(item);
  }

  override delete(item: T): boolean {
    if (this.#below.has(item)) throw new RangeError(`Expected a set that only grows, got the removal of ${String(item)}`);
    return super.delete(item);
  }
}
