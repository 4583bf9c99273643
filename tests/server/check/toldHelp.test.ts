import fc from "fast-check";
import { expect, it } from "vitest";
import { decideHelp } from "../../../server/check/decideHelp";
import { helped, helpWith } from "../../../server/check/keptHelp";
import type { KeptTry } from "../../../server/check/keptTry";
import { RUNGS } from "../../../server/check/rungs";
import { toldTry } from "../../../server/check/toldTry";
import { type Explanation, explanationWords, MISTAKE_CODES } from "../../../shared/check/mistakes";
import type { PartId } from "../../../shared/circuit";
import type { HelpAction } from "../../../shared/messages";

const part = fc.constantFrom("R1", "R2", "V1", "I1", "a", "sign");
const explanation: fc.Arbitrary<Explanation> = fc.record({
  mistakes: fc.array(
    fc.record({
      code: fc.constantFrom(...MISTAKE_CODES),
      parts: fc.uniqueArray(part, { minLength: 1, maxLength: 3 }) as unknown as fc.Arbitrary<PartId[]>,
      node: fc.constantFrom("a", "b"),
    }),
    { minLength: 1, maxLength: 2 },
  ),
  addend: fc.oneof(fc.constant(null), fc.constant(["V2" as PartId])),
});
const NOW = { isOutdated: false, timeAt: () => undefined };
const meant = { wanted: "Iy", card: "I1", count: 1 };
const action: fc.Arbitrary<HelpAction> = fc
  .oneof(
    fc.record({ do: fc.constant("askHelp" as const), given: fc.nat(4) }),
    fc.record({
      do: fc.constant("answerQuestion" as const),
      choice: fc.constantFrom(0 as const, 1 as const, "neither"),
    }),
    fc.record({ do: fc.constant("giveReason" as const), text: fc.constant("the arrow") }),
  )
  .map((fields) => ({ ...meant, ...fields }) as HelpAction);

it("whatever is asked, no more of a mistake is told than its rungs that were given, and a question that is put", () =>
  fc.assert(
    fc.property(
      fc.array(explanation, { maxLength: 4 }),
      fc.array(action, { maxLength: 8 }),
      (explanations, actions) => {
        let kept: KeptTry = {
          ...meant,
          text: "40 mA",
          participant: "ann",
          name: "Ann",
          time: 1,
          judgement: { outcome: "wrong", diagnosis: { code: "size", factor: 2, sign: "turned" } },
          help: helpWith(explanations),
          answer: "the key",
        };
        for (const each of actions) {
          const decision = decideHelp(kept, false, each, { participant: "ben", name: "Ben" });
          for (const event of decision.outcome === "events" ? decision.events : []) {
            kept = { ...kept, help: kept.help && helped(kept.help, event) };
          }
          const told = toldTry(kept, NOW, "other");
          const { thinkable = [], given = 0, isAsked = false } = kept.help ?? {};
          const [first] = thinkable;
          expect(told.help?.rungs.map(({ text }) => text) ?? []).toEqual(
            first ? RUNGS.slice(0, given).map((rung) => explanationWords(first)[rung]) : [],
          );
          expect(told.help?.question?.deeds ?? null).toEqual(
            isAsked ? thinkable.slice(0, 2).map((one) => explanationWords(one).deed) : null,
          );
          // A comparison only where no mistake that is thought of explains the value.
          expect(told.judgement).toMatchObject({ diagnosis: first ? null : { code: "size" } });
          for (const rung of told.help?.rungs ?? []) {
            expect([...rung.parts, ...rung.nodes].filter((name) => !rung.text.includes(name))).toEqual([]);
          }
          expect(JSON.stringify(told)).not.toMatch(
            new RegExp(`the key|"(?:${MISTAKE_CODES.join("|")})"|thinkable|the arrow`),
          );
        }
      },
    ),
  ));
