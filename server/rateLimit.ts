/** How much may happen: `burst` at once, and `perSecond` in the long run. */
export type Rate = { readonly burst: number; readonly perSecond: number };

/** Counts for one source of events how much of its rate is left. Times in ms, from any clock that only goes forward. */
export class RateLimit {
  readonly #rate: Rate;
  #left: number;
  #time: number;

  constructor(rate: Rate, now: number) {
    this.#rate = rate;
    this.#left = rate.burst;
    this.#time = now;
  }

  /** Takes one, where one is left. */
  take(now: number): boolean {
    this.#refill(now);
    if (this.#left < 1) return false;
    this.#left -= 1;
    return true;
  }

  /** Whether all of the burst is there again: as if nothing had happened yet. */
  isFull(now: number): boolean {
    this.#refill(now);
    return this.#left >= this.#rate.burst;
  }

  #refill(now: number): void {
    const { burst, perSecond } = this.#rate;
    this.#left = Math.min(burst, this.#left + (Math.max(0, now - this.#time) / 1000) * perSecond);
    this.#time = now;
  }
}

/** Most sources that are remembered: above that those that have been quiet are forgotten, then those that came first. */
const SOURCES = 10_000;

/** One rate for each of many sources, such as the addresses that requests come from. */
export class RateLimits {
  readonly #rate: Rate;
  readonly #limits = new Map<string, RateLimit>();

  constructor(rate: Rate) {
    this.#rate = rate;
  }

  take(source: string, now: number): boolean {
    const known = this.#limits.get(source);
    if (!known && this.#limits.size >= SOURCES) this.#forgetSome(now);
    const limit = known ?? new RateLimit(this.#rate, now);
    this.#limits.set(source, limit);
    return limit.take(now);
  }

  get size(): number {
    return this.#limits.size;
  }

  /** A tenth at least, so that the search is not made anew for each source. */
  #forgetSome(now: number): void {
    for (const [source, limit] of this.#limits) if (limit.isFull(now)) this.#limits.delete(source);
    for (const source of this.#limits.keys()) {
      if (this.#limits.size <= SOURCES * 0.9) break;
      this.#limits.delete(source);
    }
  }
}
