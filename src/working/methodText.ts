import type { PowerRow, PowerTable, SecondMethod } from "../../shared/derive";
import { type ShownWorking, TOTAL_CARD } from "../../shared/messages";
import type { Shown } from "../../shared/solve/report";

export function methodTitle(method: SecondMethod["method"]): string {
  return `${method.charAt(0).toUpperCase()}${method.slice(1)}`;
}

/** `agrees with the sum: 4.4 mA`. The sum is null where the total is no sum of addends, as a power is none. */
export function agreementText({ agrees }: SecondMethod, sum: Shown | null): string {
  const value = sum ? `: ${sum.mark === "≈" ? "≈ " : ""}${sum.text}` : "";
  return agrees === false
    ? `does not agree with the sum${value}. This is a defect of the program.`
    : `agrees with the sum${value}`;
}

/** A part's power as what it does: `absorbs 24 mW`. */
export function doesText({ does, power }: PowerRow): string {
  const about = power.mark === "≈" ? "≈ " : "";
  return does === "neither" ? power.text : `${does} ${about}${power.text.replace(/^−/, "")}`;
}

/** `Supplied 60 mW, absorbed 60 mW: the difference is 0 W.` */
export function balanceText({ supplied, absorbed, difference }: PowerTable): string {
  return `Supplied ${supplied.text}, absorbed ${absorbed.text}; the difference is ${difference.text}.`;
}

/** The rows that show what powers of addends add up to; those where that is not the power first. */
export function contrastRows({ rows }: PowerTable): readonly PowerRow[] {
  const compared = rows.filter((row) => row.sumOfAlone !== null);
  return [...compared.filter(differs), ...compared.filter((row) => !differs(row))];
}

const differs = (row: PowerRow) => row.doesSumAgree === false;

const SUMS = ["current", "voltage", "open-circuit-voltage", "short-circuit-current"];

/** What the addends add up to, null where the wanted quantity is no sum of addends. */
export function sumOf({ kind, cards }: ShownWorking): Shown | null {
  return SUMS.includes(kind) ? (cards.find(({ card }) => card === TOTAL_CARD)?.derivation.result ?? null) : null;
}

export type Contrast = { readonly title: string; readonly text: string };

/** What the table of powers of addends shows, about one part; null where there is nothing to compare. */
export function contrastOf(table: PowerTable): Contrast | null {
  const rows = contrastRows(table);
  // A part that absorbs is easier to see through than a source.
  const row = rows.find((each) => differs(each) && each.does === "absorbs") ?? rows[0];
  if (row === undefined || row.sumOfAlone === null) return null;
  if (!differs(row)) {
    const isSeveral = table.rows.some(
      ({ voltage, current }) => voltage.phasors.length > 1 || current.phasors.length > 1,
    );
    const why = isSeveral
      ? "Each source here has a frequency of its own. Then mean powers do add up, and only then: at one frequency power goes with the square of the total current."
      : "In this circuit they happen to add up. In general they do not: power goes with the square of the current.";
    return { title: "add up here", text: why };
  }
  const alone = row.alone.map(({ source, power }) => `${power.text} with ${source} alone`).join(", ");
  const text = `${row.part} would absorb ${alone}. That makes ${row.sumOfAlone.text}, but with all sources it is ${row.power.text}: power goes with the square of the current, so it is found from the total.`;
  return { title: "don’t add up to the power", text };
}
