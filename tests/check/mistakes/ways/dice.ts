/** Random choices that are the same ones whenever the seed is. */
export class Dice {
  #state: number;

  constructor(readonly seed: number) {
    this.#state = seed >>> 0;
  }

  /** From 0 up to, not with, 1. The mulberry32 generator of T. Ettinger, public domain; from memory. */
  next(): number {
    this.#state = (this.#state + 0x6d2b79f5) >>> 0;
    let t = this.#state;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  }

  /** True in so many cases of one. */
  chance(share: number): boolean {
    return this.next() < share;
  }

  pick<T>(list: readonly T[]): T {
    const member = list[Math.floor(this.next() * list.length)];
    if (member === undefined) throw new Error("nothing to pick from");
    return member;
  }

  shuffled<T>(list: readonly T[]): T[] {
    const left = [...list];
    const order: T[] = [];
    while (left.length > 0) order.push(...left.splice(Math.floor(this.next() * left.length), 1));
    return order;
  }
}

/** A seed for the n-th case of something that has a name. */
export function seedOf(name: string, n: number): number {
  let hash = 2166136261;
  for (const character of `${name} ${n}`) hash = Math.imul(hash ^ (character.codePointAt(0) ?? 0), 16777619);
  return hash >>> 0;
}
