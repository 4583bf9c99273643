import { describe, expect, it } from "vitest";
import {
  asking,
  divided,
  dividedVoltage,
  everyWay,
  inTime,
  looped,
  phasor,
  type Question,
  resistance,
  summed,
} from "./trying";

const MINUS = ["-", "−", "- ", "–"];

/** Right answers, as people write them, to questions whose answers are worked by hand in trying.ts. */
const WAYS: readonly (readonly [question: string, asked: Question, texts: readonly string[]])[] = [
  [
    "−20/11 mA by current division",
    divided,
    [
      ...everyWay(MINUS, ["1.82", "1,82", "1.818", "1.8182", "1.8181818181"], ["mA", " mA"]),
      ...everyWay(["−"], ["1820 µA", "1820 uA", "1 818 μA", "0.00182 A", ".00182 A", "1.82e-3 A", "1.82E-3A"]),
      ...everyWay(["−"], ["1.82x10^-3 A", "1.82 x 10^−3 A", "1.82X10⁻³A", "18.2 × 10^(-4) A"]),
      ...everyWay(["-"], ["1.82 × 10⁻³ A", "1.82*10^-3 A", "1.82·10^(-3) A", "20/11 mA", "20/11mA", "(20/11) mA"]),
      ...everyWay(["Ix = ", "Ix=", "I_x′ = ", "= ", "≈ "], ["−1.82 mA"]),
      ...everyWay(["-(4k/(4k+7k))"], ["*", " * ", "×", "·", " "], ["5mA", "5 mA", "I1", "0.005 A"]),
      ...everyWay(["−5 mA"], ["*", " · ", " "], ["R1/(R1+R2)", "R1 / (R1 + R2)", "r1/(r1 + r2)", "R_1/(R_1+R_2)"]),
      ...everyWay(
        ["−"],
        ["I1*R1/(R1+R2)", "I1 R1/(R1+R2)", "I₁·R₁/(R₁+R₂)", "(I1)(R1)/(R1+R2)", "I1 R1 (1/(R1+R2))", "I1(R1/(R1+R2))"],
      ),
      ...everyWay(["-I1*"], ["(4/11)", "4/11", "(1-7/11)", "(1/7)/(1/4+1/7)", "(2/11)*2", "2^2/11", "√16/11"]),
      ...everyWay(["−I1 · (1/R2)/"], ["(1/R1 + 1/R2)", "(1/4kΩ + 1/7kΩ)", "(1/4k + 1/7k)", "(R1^-1 + R2^-1)"]),
      ...everyWay(["−(R1 ∥ R2)·I1/R2", "−(R1||R2)*I1/R2", "-(R1//R2) I1/7k", "−R1∥R2·I1/R2", "-[R1‖R2]*{I1}/R2"]),
      ...everyWay(["(5 mA)(4 kΩ)/(", "5 mA · 4 kΩ / ("], ["−4 kΩ − 7 kΩ)", "-11k)", "-11 000 Ω)", "−(4+7) kΩ)"]),
      ...everyWay([
        "-20V/11kΩ",
        "−20 V/(11 kΩ)",
        "-(20/11)*1 mA",
        "-5mA*4kΩ/11kΩ",
        "-5m*4k/(4k+7k) * 1 A",
        "5mA*-4/11",
      ]),
      ...everyWay(["-2/11 mS × 10 V", "10 V*(−2/11) mS", "-abs(20/11) mA", "−sqrt(400/121) mA", "-conj(20/11 mA)"]),
      ...everyWay(["-(R1/(R1+R2))*6 mA + (R1/(R1+R2)) mA", "−R1*I1/((R1)+(R2))", "-4K/11K*5mA", "−4kΩ/(11kΩ)*5 mA"]),
    ],
  ],
  [
    "−10/11 mA by one loop",
    looped,
    [
      ...everyWay(["-V1/(R1+R2)", "−10 V / (R1 + R2)", "−10V/11kΩ", "-10 V/11k", "−10 V/(4k + 7k)", "-10/11 mA"]),
      ...everyWay(["−0.909 mA", "−909 µA", "-0,909 mA", "−909.09 uA", "-.909mA", "−9.09e-4 A", "-10 V/(4kΩ+7k)"]),
      ...everyWay([
        "-V1/(4 kΩ + R2)",
        "−V1 (R1 + R2)^-1",
        "−V1·1/(R1+R2)",
        "V1/-(R1+R2)",
        "+(−V1)/(R1+R2)",
        "−V1÷(R1+R2)",
      ]),
    ],
  ],
  [
    "−30/11 mA, the sum",
    summed,
    [
      ...everyWay(["−2.73 mA", "-2.73mA", "−2.727 mA", "-30/11 mA", "−2730 µA", "-20/11 mA - 10/11 mA"]),
      ...everyWay(["−1.818 mA − 0.909 mA", "-1.82 mA + (-0.909 mA)", "-(V1/(R1+R2)) - I1*R1/(R1+R2)"]),
      ...everyWay(["−(V1 + I1·R1)/(R1 + R2)", "-(10 V + 20 V)/11 kΩ", "-(10 V + 5mA*4k)/(4k+7k)", "−30 V/11kΩ"]),
    ],
  ],
  [
    "70/11 V by voltage division",
    dividedVoltage,
    [
      ...everyWay(["6.36", "6,36", "6.364", "6.3636", "+6.36"], ["V", " V", " v", " volt"].slice(0, 3)),
      ...everyWay(["6360 mV", "0.00636 kV", "70/11 V", "Va = 6.36 V", "10 V*R2/(R1+R2)", "V1·7k/(4k+7k)", "V1*7/11"]),
      ...everyWay(["10V*7kΩ/11kΩ", "(10 V)(7/11)", "V1/(1 + R1/R2)", "V1*(1-R1/(R1+R2))", "7/11*V1", "7 V1/11"]),
      ...everyWay(["R2*V1/(R1+R2)", "10/11k*7k V", "10 V/(1+4/7)", "V1 R2/(R1 + R2)", "10 V·(7 kΩ)/(4 kΩ + 7 kΩ)"]),
    ],
  ],
  [
    "28/11 kΩ in parallel",
    resistance,
    [
      ...everyWay(["R1 ∥ R2", "R1||R2", "R1//R2", "4kΩ||7kΩ", "4 kΩ ∥ 7 kΩ", "2.55 kΩ", "2k55 Ω", "2545 Ω"]),
      ...everyWay(["R1*R2/(R1+R2)", "R1 R2/(R1+R2)", "1/(1/R1+1/R2)", "(1/4k + 1/7k)^-1 * 1 Ω", "28/11 kΩ", "2K55Ω"]),
      ...everyWay(["4·7/(4+7) kΩ", "2550 ohm", "2.55 kohm", "1/(1/4kΩ + 1/7kΩ)", "R1²R2/(R1(R1+R2))", "R1 ∥ (R2)"]),
    ],
  ],
  [
    "2 mA ∠ −53.13°, a phasor",
    phasor,
    [
      ...everyWay(["2"], ["∠", " ∠ ", "<"], ["-53.1°", "−53.13°", "-53.1"], [" mA"]),
      ...everyWay(["2 mA ∠ −53.13°", "2mA∠-53.1°", "2.00 mA ∠ −53.13 deg", "0.002 A ∠ -53.1°", "2 ∠ 306.87° mA"]),
      ...everyWay(["(1.2 − j1.6) mA", "(1.2-1.6j) mA", "1.2 mA - j*1.6 mA", "1.2 mA − j1.6 mA", "(1.2 - 1.6i) mA"]),
      ...everyWay(["V1/(R1 + j*1000 rad/s*L1)", "10 V/(3 kΩ + j4 kΩ)", "10V/(3k+4kj)", "10∠0° V/(5∠53.13° kΩ)"]),
      ...everyWay(["10 V ∠ 0° / (3k + j 4k)", "2 cos(1000 t − 53.13°) mA", "2 mA cos(1000t - 53.1°)", "10/(3+4j) mA"]),
      ...everyWay([
        "2 mA ∠ −53.13° @ 1000 rad/s",
        "2 sin(1000 t + 36.87°) mA",
        "conj(2∠53.13° mA)",
        "2(cos(53.13°)-j sin(53.13°)) mA",
      ]),
      ...everyWay([
        "1.2 − j1.6 mA",
        "1.2-1.6j mA",
        "1.2 - j*1.6 mA",
        "1200 − j1600 µA",
        "1.2 mA + (−j1.6) mA",
        "-j1.6 + 1.2 mA",
      ]),
      ...everyWay(["10 V/(3 + j4 kΩ)", "10 V/(3 kΩ − (−j4) kΩ)", "V1/(3 + 4j kΩ)", "10/(3 - (-j4)) mA"]),
      ...everyWay(["1.414 mA rms ∠ −53.13°", "sqrt(2) mA rms∠-53.13°", "2 mA peak ∠ −53.1°", "2∠-53.13°·1 mA"]),
    ],
  ],
  [
    "3 A + 2.5 cos(100π t + 30°) A",
    inTime,
    [
      ...everyWay([
        "3 A + 2.5 cos(100π t + 30°) A",
        "3 A + 2.5 cos(2π·50 t + 30°) A",
        "2.5 A cos(314.16 t + 30°) + 3 A",
      ]),
      ...everyWay(["3 + 2.5 cos(100π t + 30°) A", "(3 + 2.5 cos(314.16t + 30°)) A", "3 A + 2.5 A·cos(2π·50 t + π/6)"]),
      ...everyWay(["V1/R1 + V2/R1", "(V1 + V2)/R1", "(V1+V2)/2Ω", "3 A − 2.5 cos(100π t − 150°) A", "3 A + V2/R1"]),
      ...everyWay([
        "3 A + 2.5 sin(100π t + 120°) A",
        "6 V/2 Ω + 5/2 cos(100π t + 30°) A",
        "It = 3 A + 2.5cos(100πt+30°) A",
      ]),
      ...everyWay(["3 + 2.5cos(314.16 t+30°) A", "3000 + 2500 cos(2π·50 t + 30°) mA", "3 − 2.5 cos(100π t − 150°) A"]),
    ],
  ],
];

describe("a right answer is accepted however it is written", () => {
  for (const [question, asked, texts] of WAYS) {
    const judged = asking(asked);
    it(`${question}: ${texts.length} ways`, () => {
      const refused = texts.flatMap((text) => {
        const judgement = judged(text);
        return judgement.outcome === "right" ? [] : [{ text, judgement }];
      });
      expect(refused).toEqual([]);
    });
  }

  it("in more than 200 ways, no two alike", () => {
    const texts = WAYS.flatMap(([, , each]) => each);
    expect(new Set(texts).size).toBe(texts.length);
    expect(texts.length).toBeGreaterThan(200);
  });
});
