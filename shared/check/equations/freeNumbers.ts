import { rational } from "../../quantity";
import { complex } from "../../solve/complex";
import type { EnteredNumber } from "../value";
import { keyOf, type Numbers } from "./quantity";

/**
 * Numbers for quantities that know nothing of the circuit: each quantity has one of its own, the same for the same seed,
 * and with the other sign for the next one. An equation that is true with them is true whatever the circuit does.
 */
export function freeNumbers(seed: number, isPhasor: boolean): Numbers {
  return (located): EnteredNumber => {
    const key = keyOf(located);
    const [n, d] = [1 + (hash(key, seed >> 1) % 9973), 1 + (hash(key, seed + 7919) % 97)];
    const isNegative = (hash(key, 0) + seed) % 2 === 0;
    const value = rational(BigInt(isNegative ? -n : n), BigInt(d));
    if (!isPhasor) return { kind: "exact", value };
    return { kind: "complex", value: complex((isNegative ? -n : n) / d, 1 + (hash(key, seed + 104_729) % 89)) };
  };
}

/** FNV-1a over the text and the seed, as a number from 0 to 2³² − 1. Source: Fowler, Noll, Vo (from memory). */
function hash(text: string, seed: number): number {
  let state = (2_166_136_261 ^ seed) >>> 0;
  for (let i = 0; i < text.length; i++) state = Math.imul(state ^ text.charCodeAt(i), 16_777_619) >>> 0;
  return state;
}
