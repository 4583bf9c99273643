/** A partition of 0 … count − 1 into sets, all of one member at first, that can be joined. */
export class Partition {
  readonly #up: number[];

  constructor(count: number) {
    this.#up = Array.from({ length: count }, (_, i) => i);
  }

  /** The same member for all members of one set. */
  find(member: number): number {
    let root = member;
    while (this.#up[root] !== root) root = this.#up[root] ?? root;
    for (let at = member; at !== root; ) {
      const next = this.#up[at] ?? root;
      this.#up[at] = root;
      at = next;
    }
    return root;
  }

  /** Joins the sets of two members; false where they were one already. The set goes on under the first one's name. */
  join(a: number, b: number): boolean {
    const [first, second] = [this.find(a), this.find(b)];
    this.#up[second] = first;
    return first !== second;
  }
}
