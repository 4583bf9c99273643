/** A function of an index that works each value out once, when it is first asked for. */
export function remembered<T>(compute: (index: number) => T): (index: number) => T {
  const known = new Map<number, T>();
  return (index) => {
    const before = known.get(index);
    if (before !== undefined) return before;
    const value = compute(index);
    known.set(index, value);
    return value;
  };
}
