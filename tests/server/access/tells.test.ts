import { expect, it } from "vitest";
import type { WholeCard } from "../../../server/access/wholeWorkings";
import { TOTAL_CARD } from "../../../shared/messages";
import type { RawElement } from "../../independent/elements";
import { wholeOf } from "./awkward";

type Asked = Readonly<Record<string, string>>;

/** The card of the first wanted quantity, of a circuit with node 0 for reference. */
function cardOf(elements: readonly RawElement[], wanted: readonly Asked[], card = "V1"): WholeCard {
  const whole = wholeOf({ format: "addend-circuit", version: 1, elements, reference: "0", wanted }, []);
  const found = whole.workings[0]?.cards.find((each) => each.card === card);
  if (!found) throw new Error(`there is no card ${card}`);
  return found;
}

const results = ({ derivation }: WholeCard) =>
  derivation.lines.map(({ equations }) => equations.map(({ result }) => result?.text ?? null));
const tellOf = ({ tells }: WholeCard, card: string) => tells.find((each) => each.card === card)?.from;

const resistor = (id: string, from: string, to: string, value: string): RawElement => {
  return { id, kind: "resistor", nodes: [from, to], value };
};
const V1: RawElement = { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "12 V" };
const I1: RawElement = { id: "I1", kind: "current-source", nodes: ["0", "b"], value: "1 A" };
// V1 alone: 12 V over 2 Ω + 4 Ω in series, 2 A, and 8 V at b.
const LADDER = [V1, resistor("R1", "a", "b", "2 Ω"), resistor("R2", "b", "0", "4 Ω"), I1];

it("the last line tells a card's answer at the latest", () => {
  const card = cardOf(LADDER, [{ quantity: "voltage", name: "Vb", from: "b", to: "0" }]);
  expect(tellOf(card, "V1")).toBe(card.derivation.lines.length - 1);
  expect(tellOf(card, TOTAL_CARD)).toBeUndefined();
});

it("a line before the last tells it where it comes to the answer but for the sign", () => {
  // 2 A through V1 from b's side: the line behind only turns the sign round.
  const card = cardOf(LADDER, [{ quantity: "current", name: "Ix", through: "R1", from: "b", to: "a" }]);
  const first = results(card).findIndex((line) => line.some((text) => text === "2 A" || text === "−2 A"));
  expect(first).toBeLessThan(card.derivation.lines.length - 1);
  expect(tellOf(card, "V1")).toBe(first);
});

it("a line tells the answer to another wanted quantity on its way", () => {
  // The power takes the current, which is asked for as well.
  const asked = [
    { quantity: "power", name: "P2", through: "R2" },
    { quantity: "current", name: "I2", through: "R2", from: "b", to: "0" },
  ];
  const card = cardOf(LADDER, asked);
  const first = results(card).findIndex((line) => line.includes("2 A"));
  expect(first).toBeGreaterThan(0);
  expect(tellOf(card, "V1")).toBe(first);
});

it("a value that stands on the board tells nothing by being put into a line", () => {
  const elements = [V1, resistor("R1", "a", "b", "3 Ω"), resistor("R2", "b", "0", "3 Ω"), { ...I1, value: "6 A" }];
  const asked = [
    { quantity: "current", name: "Ib", through: "R2", from: "b", to: "0" },
    // 6 A come out of I1, whatever the rest is: an answer with the value of a part.
    { quantity: "current", name: "Is", through: "I1", from: "0", to: "b" },
  ];
  // 6 A divide into 3 A and 3 A: what is put in tells nothing, what comes out does.
  const card = cardOf(elements, asked, "I1");
  expect(JSON.stringify(card.derivation)).toContain("6 A");
  expect(tellOf(card, "I1")).toBe(results(card).findIndex((line) => line.includes("3 A")));
});

it("an answer of 0 is told by the words that nothing flows, and not by the 0 A of another zeroed source", () => {
  // With V1 alone no current reaches R3, which hangs on b and is loose at d but for I2; I1 is asked about as well.
  const elements = [
    V1,
    resistor("R1", "a", "b", "2 Ω"),
    resistor("R2", "b", "0", "4 Ω"),
    resistor("R3", "b", "d", "3 Ω"),
    { ...I1, nodes: ["0", "d"] },
  ];
  const ofR3 = { quantity: "current", name: "I3", through: "R3", from: "b", to: "d" };
  const card = cardOf(elements, [ofR3]);
  const { lines } = card.derivation;
  expect(lines[0]?.sentence).toContain("0 A");
  const words = lines.findIndex(({ sentence }) => sentence.includes("no current"));
  expect(words).toBeGreaterThan(0);
  expect(words).toBeLessThan(lines.length - 1);
  expect(tellOf(card, "V1")).toBe(words);
  const ofI1 = { quantity: "current", name: "Is", through: "I1", from: "0", to: "d" };
  expect(tellOf(cardOf(elements, [ofI1]), "V1")).toBe(0);
});

it("parts taken together tell the resistance that is asked for, which is hidden with the total", () => {
  // V1 feeds 2 Ω and 4 Ω ∥ 12 Ω = 3 Ω; what is asked between d and 0 happens to be 3 Ω too.
  const elements = [
    ...LADDER.slice(0, 3),
    resistor("R3", "b", "0", "12 Ω"),
    { ...I1, nodes: ["0", "d"] },
    resistor("R4", "d", "0", "3 Ω"),
  ];
  const asked = [
    { quantity: "current", name: "Ia", through: "R1", from: "a", to: "b" },
    { quantity: "resistance", name: "Rd", from: "d", to: "0" },
  ];
  const card = cardOf(elements, asked);
  const first = results(card).findIndex((line) => line.includes("3 Ω"));
  expect(first).toBeGreaterThan(0);
  expect(card.tells).toEqual([
    { card: "V1", from: card.derivation.lines.length - 1 },
    { card: TOTAL_CARD, from: first },
  ]);
});
