/**
 * How many of `length` places, counted from 0, a condition holds for, where it holds for none behind the first that it fails
 * for: in a sorted list, how many come before something. Asks as often as the length can be halved.
 */
export function countWhile(length: number, holds: (place: number) => boolean): number {
  let [low, high] = [0, length];
  while (low < high) {
    const middle = (low + high) >> 1;
    if (holds(middle)) low = middle + 1;
    else high = middle;
  }
  return low;
}
