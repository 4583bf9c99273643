/** The newest of what was made, by key: the one that was asked for longest ago goes where there are too many. */
export class Memory<T> {
  readonly #limit: number;
  readonly #kept = new Map<string, T>();

  constructor(limit: number) {
    this.#limit = limit;
  }

  /** What is kept under a key, made now where nothing is. */
  take(key: string, make: () => T): T {
    const value = this.#kept.has(key) ? (this.#kept.get(key) as T) : make();
    // To the end of the map's order.
    this.#kept.delete(key);
    this.#kept.set(key, value);
    if (this.#kept.size > this.#limit) this.#kept.delete(this.#kept.keys().next().value as string);
    return value;
  }

  get size(): number {
    return this.#kept.size;
  }
}
