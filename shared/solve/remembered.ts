/** A function of an index that works each value out once, when it is first asked for. */
export function remembered<T>(compute: (index: number) => T): (index: number) => T {
  const known: (T | undefined)[] = [];
  return (index) => {
    const before = known[index];
    if (before !== undefined) return before;
    const value = compute(index);
    known[index] = value;
    return value;
  };
}
