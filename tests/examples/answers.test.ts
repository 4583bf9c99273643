import { describe, expect, it } from "vitest";
import { fileProblemText, readCircuitFile } from "../../shared/circuit";
import { EXAMPLES } from "../../shared/examples";
import { type PhasorShown, type Report, type Shown, solveReport } from "../../shared/solve";

// Worked by hand, one source at a time, in shared/examples/README.md.

function reportOf(id: string): Report {
  const example = EXAMPLES.find((candidate) => candidate.id === id);
  const reading = readCircuitFile(example?.json);
  if (!reading.ok) throw new Error(reading.problems.map(fileProblemText).join("\n"));
  return solveReport(reading.value.circuit);
}

function wantedOf(id: string, name: string): Report["wanted"][number] {
  const wanted = reportOf(id).wanted.find((candidate) => candidate.name === name);
  if (!wanted) throw new Error(`${id} does not ask for ${name}`);
  return wanted;
}

const exactly = (shown: Shown | null | undefined) => shown?.exact;

/** In SI units as fractions: total, then the addend of each source. */
type Exact = readonly [id: string, name: string, total: string, addends: Readonly<Record<string, string>>];

const EXACT: readonly Exact[] = [
  ["three-sources", "Iy", "1/40", { V1: "3/50", I1: "-1/50", V2: "-3/200" }],
  ["solar-trickle-charger", "Ic", "1/10", { V1: "3/10", V2: "-1/5" }],
  ["tank-level-sensor", "Iq", "-1/1000", { I1: "1/500", I2: "-3/1000" }],
  ["door-loop-bridge", "Vd", "3", { V1: "5", I1: "-2" }],
  ["fan-controller", "Vq", "6", { V1: "12", I1: "-6" }],
  ["moisture-probe", "Iw", "21/5000", { V1: "11/2000", I1: "-13/10000" }],
  ["line-mixer", "Vo", "-3/5", { V1: "-3/2", V2: "6/5", V3: "-3/10" }],
  ["line-mixer", "Io", "-1/3125", { V1: "-1/1250", V2: "2/3125", V3: "-1/6250" }],
];

describe("the answers worked by hand are the solver's, exactly", () => {
  it.each(EXACT)("%s: %s = %s", (id, name, total, addends) => {
    const wanted = wantedOf(id, name);
    expect(exactly(wanted.total)).toBe(total);
    const found = wanted.addends.map(({ sources, value }) => [sources.join(" "), exactly(value)]);
    expect(Object.fromEntries(found)).toEqual(addends);
  });

  it("solar-trickle-charger: the lamp takes 2.4 W, which has no addends", () => {
    const wanted = wantedOf("solar-trickle-charger", "Pl");
    expect(exactly(wanted.total)).toBe("12/5");
    expect(wanted.addends).toEqual([]);
  });

  it("door-loop-bridge: 3 V behind 5 kΩ, and a load of 5 kΩ takes 0.45 mW", () => {
    const parts = (name: string) =>
      Object.fromEntries(wantedOf("door-loop-bridge", name).components.map((part) => [part.name, exactly(part.value)]));
    expect(parts("Td")).toEqual({ Vth: "3", Rth: "5000" });
    expect(parts("Ld")).toEqual({ RL: "5000", Pmax: "9/20000" });
  });
});

/** Omega in rad/s, amplitude, phase in degrees. */
type Phasor = readonly [omega: number, amplitude: number, phase: number];

// arctan(3/4), arctan(4/3) and arctan(7/24) in degrees: the angles of the 3-4-5 and 7-24-25 triangles.
const A = 36.86989764584402;
const B = 53.13010235415598;
const C = 16.26020470831196;

const PHASORS: readonly (readonly [string, string, readonly Phasor[], Readonly<Record<string, Phasor>>])[] = [
  ["buzzer-filter", "Vz", [[1000, 10, C]], { V1: [1000, 6, -A], I1: [1000, 8, B] }],
  ["buzzer-filter", "Iz", [[1000, 0.25, C + 90]], { V1: [1000, 0.15, 90 - A], I1: [1000, 0.2, 90 + B] }],
  [
    "intercom-line",
    "Vy",
    [
      [0, 5, 0],
      [900, 2, -A],
      [1600, 4, A],
    ],
    { V1: [0, 5, 0], I1: [900, 2, -A], V2: [1600, 4, A] },
  ],
  ["bell-transformer", "Vu", [[100 * Math.PI, 6, 0]], { V1: [100 * Math.PI, 4, 0], V2: [100 * Math.PI, 2, 0] }],
];

describe("the phasors worked by hand are the solver's", () => {
  it.each(PHASORS)("%s: %s", (id, name, total, addends) => {
    const wanted = wantedOf(id, name);
    expectPhasors(wanted.total, total);
    expect(wanted.addends.map(({ sources }) => sources.join(" ")).toSorted()).toEqual(Object.keys(addends).toSorted());
    for (const { sources, value } of wanted.addends) {
      const expected = addends[sources.join(" ")];
      expectPhasors(value, expected === undefined ? [] : [expected]);
    }
  });

  it.each([
    ["intercom-line", "Py", 0.007],
    ["bell-transformer", "Pu", 6],
  ])("%s: average power %s", (id, name, power) => {
    expect(wantedOf(id, name).total?.decimal).toBeCloseTo(power, 12);
  });

  it("bell-transformer: its amplitudes are rms", () => {
    expect(wantedOf("bell-transformer", "Vu").total?.phasors.map(({ measure }) => measure)).toEqual(["rms"]);
  });
});

function expectPhasors(shown: Shown | null, expected: readonly Phasor[]): void {
  // A constant is one exact number and no phasor.
  const constant: PhasorShown = { omega: 0, magnitude: shown?.decimal ?? 0, phaseDegrees: 0, measure: "peak" };
  const found = shown?.phasors.length === 0 ? [constant] : (shown?.phasors ?? []);
  expect(found.map(({ omega }) => omega)).toEqual(expected.map(([omega]) => expect.closeTo(omega, 9)));
  for (const [index, [, amplitude, phase]] of expected.entries()) {
    const { magnitude = 0, phaseDegrees = 0 } = found[index] ?? {};
    expect(magnitude).toBeCloseTo(amplitude, 9);
    expect(phaseDegrees).toBeCloseTo(phase, 9);
  }
}

describe("every example", () => {
  it.each(EXAMPLES.map(({ id }) => id))("%s has no fault, and its second methods agree", (id) => {
    const report = reportOf(id);
    expect(report.problems.filter(({ severity }) => severity === "fault")).toEqual([]);
    for (const { name, secondMethod } of report.wanted)
      expect([name, secondMethod?.agrees ?? true]).toEqual([name, true]);
  });

  it.each(EXAMPLES.map(({ id }) => id))("%s stays within extra-low voltage (IEC 61140)", (id) => {
    expect(reportOf(id).problems.filter(({ code }) => code === "beyondExtraLowVoltage")).toEqual([]);
  });
});
