import { type RightValue, rightValue } from "../../shared/check";
import { cardOf, TOTAL_CARD, type TryRefusal, tidyCard } from "../../shared/messages";
import type { UnitSymbol } from "../../shared/quantity";
import type { Report, Shown, WantedReport } from "../../shared/solve";
import type { KeptTry } from "./keptTry";

/** The answer on a card. `key` is the same for two answers that are the same; it tells the answer, and is sent to nobody. */
export type CardAnswer =
  | { readonly ok: true; readonly right: RightValue; readonly key: string }
  | { readonly ok: false; readonly why: Extract<TryRefusal, "unknownCard" | "twoOfThisName" | "noAnswer"> };

/** The answer of one card of a wanted quantity, both by name. */
export function answerOf(report: Report | null, wanted: string, card: string): CardAnswer {
  const [asked, ...others] = report?.wanted.filter(({ name }) => name === wanted) ?? [];
  if (report === null) return { ok: false, why: "noAnswer" };
  if (!asked) return { ok: false, why: "unknownCard" };
  if (others.length > 0) return { ok: false, why: "twoOfThisName" };
  const shown = shownOn(asked, card);
  if (shown === undefined) return { ok: false, why: asked.total === null ? "noAnswer" : "unknownCard" };
  const unit = asked.unit as UnitSymbol;
  return { ok: true, right: rightValue(shown, unit), key: keyOf(shown, unit) };
}

/** Whether what was tried was judged by another answer than a report has; null is the report of a board without any. */
export function isTryOutdated(
  report: Report | null,
  { wanted, card, answer }: Pick<KeptTry, "wanted" | "card" | "answer">,
): boolean {
  const now = answerOf(report, wanted, card);
  return !now.ok || now.key !== answer;
}

function shownOn({ total, addends }: WantedReport, card: string): Shown | undefined {
  if (card === TOTAL_CARD) return total ?? undefined;
  return addends.find(({ sources }) => cardOf(sources) === tidyCard(card))?.value;
}

/** Digits of a double by which two answers are told apart: beyond these they may differ by how they were computed. */
const DIGITS = 9;

function keyOf({ exact, decimal, phasors }: Shown, unit: UnitSymbol): string {
  if (exact !== null) return `${exact} ${unit}`;
  const doubles = [decimal ?? 0, ...phasors.flatMap((each) => [each.omega, each.magnitude, each.phaseDegrees])];
  return `${doubles.map((double) => double.toPrecision(DIGITS)).join(" ")} ${unit}`;
}
