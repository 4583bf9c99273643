import { describe, expect, it } from "vitest";
import type { Judgement } from "../../shared/check";
import { processorTime } from "./processorTime";
import { asking, divided, inTime, phasor } from "./trying";

/** A million take about half a minute of one processor; fewer for a quick look. */
const STRINGS = Number(process.env.ENTRY_STRINGS ?? "1000000");
/** No reading of 200 characters comes near so much time of the processor. */
const LONGEST_MS = 2000;

/** Numbers from 0 to below 1 that are the same in each run (mulberry32). */
function randomFrom(seed: number): () => number {
  let state = seed;
  return () => {
    state = (state + 0x6d2b79f5) | 0;
    let t = Math.imul(state ^ (state >>> 15), 1 | state);
    t = (t + Math.imul(t ^ (t >>> 7), 61 | t)) ^ t;
    return ((t ^ (t >>> 14)) >>> 0) / 4_294_967_296;
  };
}

const PIECES = (
  "0 1 2 9 12 3.3 .5 1e3 1e30 3k3 4k 7kΩ 5mA 10V 6 mA µA Ω V A mS R1 R2 I1 V1 L1 X9 " +
  "+ - − * · / ÷ ^ ** ² ⁻³ ^-1 ∥ || // ( ) (( )) [ ] ∠ ∠45° < 30° deg rad π pi j i j4 rms peak @ @50Hz Hz t " +
  "sqrt( sin( cos( abs( conj( √ cos(1000t) cos(100πt+30°) sin(t = ≈ , . ; : ! ? ' \" ` { } $ \\ # & | ~ %"
).split(" ");
const HOSTILE = [
  "constructor",
  "__proto__",
  "prototype",
  "globalThis.broken=1",
  "import('node:fs')",
  'import({"a":1})',
  "f(x)=x",
  "a=1",
  "evaluate(",
  "parse(",
  "simplify(",
  "cos.constructor(",
  'cos.constructor("globalThis.broken=1")()',
  "R1.constructor",
  "R1['constructor']",
  "[1,2;3,4]",
  "1:1e9",
  "{a:1}",
  '"text"',
  "sqrt=1",
  "9^9^9^9^9^9",
  "((((((((((",
  "1e30^30",
  "factorial(170)",
  "range(1,1e9)",
  "\u0000",
  "\ud800",
  "\u202e",
  "‮",
  "😀",
];

function randomText(random: () => number): string {
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)] as T;
  const length = 1 + Math.floor(random() ** 2 * 40);
  const kind = random();
  const piece = () => {
    if (kind < 0.6) return pick(PIECES);
    if (kind < 0.8) return random() < 0.3 ? pick(HOSTILE) : pick(PIECES);
    return String.fromCharCode(Math.floor(random() * (kind < 0.95 ? 128 : 65536)));
  };
  return Array.from({ length }, piece).join(random() < 0.5 ? " " : "");
}

describe(`${STRINGS} random strings`, () => {
  it("are each judged or refused, quickly, and nothing in them is run", { timeout: 600_000 }, () => {
    const globals = Object.keys(globalThis).join();
    const questions = [divided, phasor, inTime].map((asked) => asking(asked));
    const random = randomFrom(20_261_125);
    const outcomes: Record<Judgement["outcome"], number> = { right: 0, wrong: 0, unread: 0 };
    let slowest = { text: "", time: 0 };
    for (let i = 0; i < STRINGS; i++) {
      const text = randomText(random);
      const start = processorTime();
      const { outcome } = (questions[i % questions.length] as (text: string) => Judgement)(text);
      const time = processorTime() - start;
      if (time > slowest.time) slowest = { text, time };
      outcomes[outcome] += 1;
    }
    expect(slowest.time, slowest.text).toBeLessThan(LONGEST_MS);
    expect(outcomes.right + outcomes.wrong + outcomes.unread).toBe(STRINGS);
    // Enough of them are expressions for evaluation to be tried, too.
    expect(outcomes.wrong).toBeGreaterThan(STRINGS / 100);
    expect(Object.keys(globalThis).join()).toBe(globals);
  });

  it("that are as long as can be take no longer", () => {
    const judged = asking(divided);
    const worst = ["(", ")", "1^9", "-", "+-", "1/", "R1∥", "√", "cos(", "1 ", "1,", "9", "j", "∠", "1e30*", "(1)"];
    for (const piece of worst) {
      const start = processorTime();
      const text = piece.repeat(200).slice(0, 200);
      expect(["wrong", "unread"]).toContain(judged(text).outcome);
      expect(processorTime() - start, piece).toBeLessThan(LONGEST_MS);
    }
    expect(judged("9".repeat(1_000_000)).outcome).toBe("unread");
  });
});
