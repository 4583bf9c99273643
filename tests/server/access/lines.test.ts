import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  type AccessChange,
  changed,
  cutWorkings,
  type Decision,
  decide,
  OPEN_ACCESS,
  type RoomAccess,
  type WholeWorkings,
} from "../../../server/access";
import { isShown, linesOf, type RoomAction, TOTAL_CARD, type TryAction } from "../../../shared/messages";
import { type CircuitJson, circuits, RESISTORS_AND_SOURCES } from "../../generators/circuits";
import { circuitOf } from "../../solve/solved";
import { groupsFrom, wholeOf } from "./awkward";

const HART = "hart";
const room: RoomAccess = [
  { do: "admit", participant: HART, name: "Prof. Hart", role: "instructor" },
  { do: "admit", participant: "ann", name: "Ann", role: "learner" },
  { do: "admit", participant: "olga", name: "Olga", role: "observer" },
].reduce((access, change) => changed(access, change as AccessChange), OPEN_ACCESS);
const roomAfter = (...changes: readonly AccessChange[]) => changes.reduce<RoomAccess>(changed, room);

// By hand: V1 alone gives node b 10 V × 3/5 = 6 V; I1 alone 7 A × (2 Ω ∥ 3 Ω) = 8.4 V; both 14.4 V.
const TWO: CircuitJson = {
  format: "addend-circuit",
  version: 1,
  elements: [
    { id: "V1", kind: "voltage-source", nodes: ["a", "0"], value: "10 V" },
    { id: "R1", kind: "resistor", nodes: ["a", "b"], value: "2 Ω" },
    { id: "R3", kind: "resistor", nodes: ["b", "0"], value: "3 Ω" },
    { id: "I1", kind: "current-source", nodes: ["0", "b"], value: "7 A" },
  ],
  reference: "0",
  wanted: [{ quantity: "voltage", name: "Vb", from: "b", to: "0" }],
};
const ONE: CircuitJson = { ...TWO, elements: TWO.elements.slice(0, 3) };
const two = wholeOf(TWO, []);

const show = (card: string, lines: number | "all"): RoomAction & { do: "showLines" } => {
  return { do: "showLines", wanted: "Vb", card, lines };
};
const ask = (
  access: RoomAccess,
  action: Exclude<RoomAction, TryAction>,
  workings: WholeWorkings = two,
  by = HART,
): Decision => decide(access, by, action, workings);
const countOf = (workings: WholeWorkings, card: string) =>
  workings.workings[0]?.cards.find((each) => each.card === card)?.derivation.lines.length ?? 0;

/** The lines of each card that learners are sent. */
function sentOf(access: RoomAccess, workings: WholeWorkings): Record<string, number> {
  const cut = cutWorkings(workings, {
    isShown: (card) => isShown(access.answers, card),
    linesOf: (wanted, card) => linesOf(access.lines, wanted, card),
  });
  const [first] = cut.workings;
  return Object.fromEntries((first?.cards ?? []).map(({ card, shownLines }) => [card, shownLines]));
}

function takenIn(access: RoomAccess, decision: Decision): RoomAccess {
  return decision.outcome === "change" ? changed(access, decision.change) : access;
}

describe("the lines that are shown", () => {
  it("are none in a new room", () => expect(sentOf(room, two)).toEqual({ V1: 0, I1: 0, total: 0 }));

  it("are asked for by an instructor alone", () => {
    for (const action of [show("V1", 1), { do: "showAllLines", shown: true } as const]) {
      for (const by of ["ann", "olga", "nobody"]) {
        expect(ask(room, action, two, by)).toEqual({ outcome: "refused", why: "notAllowed" });
      }
      expect(ask(room, action).outcome).toBe("change");
    }
    expect(ask(changed(room, { do: "end" }), show("V1", 1))).toEqual({ outcome: "refused", why: "ended" });
  });

  it("come one by one, card by card, and go again", () => {
    let access = room;
    for (const [card, lines] of [
      ["V1", 1],
      ["V1", 2],
      ["I1", 1],
      ["V1", 0],
    ] as const) {
      access = takenIn(access, ask(access, show(card, lines)));
      expect(sentOf(access, two)[card]).toBe(lines);
    }
    expect(access.lines.except).toEqual([{ wanted: "Vb", card: "I1", lines: 1 }]);
    expect(sentOf(access, two)).toEqual({ V1: 0, I1: 1, total: 0 });
  });

  it("are all of all cards at once, with second methods and powers, and none again", () => {
    const access = takenIn(room, ask(room, { do: "showAllLines", shown: true }));
    expect(sentOf(access, two)).toEqual({ V1: countOf(two, "V1"), I1: countOf(two, "I1"), total: 1 });
    const cut = cutWorkings(two, { isShown: () => true, linesOf: (...of) => linesOf(access.lines, ...of) });
    expect(cut.workings[0]?.secondMethods).toHaveLength(3);
    expect(cut.powerTable?.rows).toHaveLength(4);
    expect(takenIn(access, ask(access, { do: "showAllLines", shown: false })).lines).toEqual(OPEN_ACCESS.lines);
  });

  it("change nothing where as many are shown already", () => {
    const access = roomAfter({ ...show("V1", 2), reveals: [] });
    expect(ask(access, show("V1", 2))).toEqual({ outcome: "nothing" });
    expect(ask(room, show("V1", 0))).toEqual({ outcome: "nothing" });
  });

  it("are kept of no more cards than any board has room for", () => {
    const many = Array.from({ length: 200 }, (_, index): AccessChange => {
      return { do: "showLines", wanted: `V${index}`, card: "V1", lines: 1, reveals: [] };
    });
    const full = roomAfter(...many);
    expect(ask(full, show("V1", 1))).toEqual({ outcome: "refused", why: "tooMany" });
    expect(ask(full, { ...show("V1", 2), wanted: "V7" }).outcome).toBe("change");
    expect(ask(full, { do: "showAllLines", shown: true }).outcome).toBe("change");
  });
});

describe("while a card's answer is hidden", () => {
  const hidden = roomAfter({ do: "setShown", card: "V1", shown: false });

  it("lines before the one that tells it are shown without it", () => {
    const last = countOf(two, "V1") - 1;
    const decision = ask(hidden, show("V1", last));
    expect(decision).toMatchObject({ outcome: "change", change: { reveals: [] } });
    expect(sentOf(takenIn(hidden, decision), two).V1).toBe(last);
  });

  it("its last line shows the answer, in the same change", () => {
    for (const lines of [countOf(two, "V1"), "all"] as const) {
      const decision = ask(hidden, show("V1", lines));
      expect(decision).toMatchObject({ outcome: "change", change: { reveals: ["V1"] } });
      const access = takenIn(hidden, decision);
      expect(isShown(access.answers, "V1")).toBe(true);
      expect(sentOf(access, two).V1).toBe(countOf(two, "V1"));
    }
  });

  it("hiding it again takes away the lines that tell it, and the total's", () => {
    const all = takenIn(room, ask(room, { do: "showAllLines", shown: true }));
    const access = changed(all, { do: "setShown", card: "V1", shown: false });
    expect(sentOf(access, two)).toEqual({ V1: countOf(two, "V1") - 1, I1: countOf(two, "I1"), total: 0 });
  });

  it("the total's lines can't be shown, since they tell it", () => {
    expect(ask(hidden, show(TOTAL_CARD, 1))).toEqual({ outcome: "refused", why: "addendsHidden" });
    expect(ask(hidden, show(TOTAL_CARD, "all"))).toEqual({ outcome: "refused", why: "addendsHidden" });
    expect(ask(hidden, show(TOTAL_CARD, 0)).outcome).toBe("nothing");
  });

  it("showing all lines of all cards shows all answers", () => {
    expect(takenIn(hidden, ask(hidden, { do: "showAllLines", shown: true })).answers).toEqual({
      shown: true,
      except: [],
    });
    expect(takenIn(hidden, ask(hidden, { do: "showAllLines", shown: false })).answers).toEqual(hidden.answers);
  });
});

describe("the total", () => {
  it("is shown by its first line once all addends are shown", () => {
    const hidden = roomAfter({ do: "setShown", card: TOTAL_CARD, shown: false });
    const decision = ask(hidden, show(TOTAL_CARD, 1));
    expect(decision).toMatchObject({ outcome: "change", change: { reveals: [TOTAL_CARD] } });
    expect(sentOf(takenIn(hidden, decision), two)[TOTAL_CARD]).toBe(1);
  });

  it("and the only source's card are one answer: the lines of either show both", () => {
    const one = wholeOf(ONE, []);
    const hidden = roomAfter({ do: "setAnswers", shown: false });
    for (const card of ["V1", TOTAL_CARD]) {
      const access = takenIn(hidden, ask(hidden, show(card, "all"), one));
      expect(["V1", TOTAL_CARD].map((each) => isShown(access.answers, each))).toEqual([true, true]);
      expect(sentOf(access, one)[card]).toBe(countOf(one, card));
    }
  });
});

describe("for random circuits, groups and steps", () => {
  const step = fc.tuple(fc.nat(99), fc.oneof(fc.nat(12), fc.constant("all" as const)));
  const hidings = fc.array(fc.tuple(fc.nat(9), fc.boolean()), { maxLength: 3 });

  it("what an instructor steps to is what learners have, or it is refused", { timeout: 60_000 }, () => {
    let steps = 0;
    fc.assert(
      fc.property(
        circuits(RESISTORS_AND_SOURCES, 6),
        fc.array(fc.nat(15), { maxLength: 2 }),
        fc.array(fc.tuple(step, hidings), { minLength: 1, maxLength: 6 }),
        (json, groups, plan) => {
          const whole = wholeOf(json, groupsFrom(circuitOf(json), groups));
          const places = whole.workings.flatMap(({ wanted, cards }) => cards.map((card) => ({ wanted, ...card })));
          const names = [...whole.cards, TOTAL_CARD];
          let access = room;
          for (const [[place, lines], hiding] of plan) {
            for (const [index, shown] of hiding) {
              access = changed(access, { do: "setShown", card: names[index % names.length] as string, shown });
            }
            const target = places[place % places.length];
            if (target === undefined) return;
            const { wanted, card, derivation } = target;
            const decision = ask(access, { do: "showLines", wanted, card, lines }, whole);
            const isRefused = decision.outcome === "refused";
            if (isRefused) expect([card, decision]).toEqual([TOTAL_CARD, { outcome: "refused", why: "addendsHidden" }]);
            access = takenIn(access, decision);
            if (isRefused) continue;
            steps++;
            const cut = cutWorkings(whole, {
              isShown: (each) => isShown(access.answers, each),
              linesOf: (...of) => linesOf(access.lines, ...of),
            });
            const sent = cut.workings.find((each) => each.wanted === wanted)?.cards.find((each) => each.card === card);
            const count = derivation.lines.length;
            expect(sent?.shownLines).toBe(lines === "all" ? count : Math.min(lines, count));
          }
        },
      ),
      { numRuns: 150 },
    );
    expect(steps).toBeGreaterThan(150);
  });
});
