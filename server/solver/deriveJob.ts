import { createHash } from "node:crypto";
import { type Fault, powerTableOf, type Working, workingsOf } from "../../shared/derive";
import { cardOf, TOTAL_CARD } from "../../shared/messages";
import { type Report, solveReport } from "../../shared/solve";
import { askedParts } from "../access/askedParts";
import { givenTexts } from "../access/givenTexts";
import { tellsOf } from "../access/tells";
import type { WholeCard, WholeWorking, WholeWorkings } from "../access/wholeWorkings";
import { LIMITS } from "../limits";
import { type BoardReading, boardReading } from "./boardReading";

/** A job's workings, without the revision, which the room knows. */
export type Derived = Omit<WholeWorkings, "revision"> & {
  /** Lines that were withheld. */
  readonly faults: readonly Fault[];
  /** The same for workings that are the same. */
  readonly digest: string;
};

/** Reads the circuit off a board, given as one Yjs update, and works out all that it asks, line by line. */
export function deriveBoard(board: Uint8Array): Derived {
  return deriveReading(boardReading(board), LIMITS.workingsBytes);
}

/** The workings of what a board asks; none, with a failure, where their JSON is longer than `mostBytes`. */
export function deriveReading(reading: Omit<BoardReading, "problems">, mostBytes: number): Derived {
  const { circuit, alone, groups } = reading;
  const report = solveReport(circuit, { groups: [...alone, ...groups] });
  const { workings, faults } = derive(reading, report);
  const powerTable = workings.length > 0 ? powerTableOf(circuit) : null;
  const cards = report.partials.map(({ sources }) => cardOf(sources));
  const whole = cardOf(report.sources.map(({ id }) => id));
  const text = JSON.stringify([workings, powerTable]);
  const digest = createHash("sha256").update(text).digest("base64");
  if (Buffer.byteLength(text) <= mostBytes)
    return { workings, powerTable, cards, whole, failure: null, faults, digest };
  return {
    workings: [],
    powerTable: null,
    cards,
    whole,
    failure: { code: "tooLarge", bytes: mostBytes },
    faults,
    digest,
  };
}

function derive(
  { circuit, alone, groups }: Omit<BoardReading, "problems">,
  report: Report,
): { readonly workings: readonly WholeWorking[]; readonly faults: readonly Fault[] } {
  const known = { given: givenTexts(circuit), asked: askedParts(circuit) };
  const workings = workingsOf(circuit);
  // With groups beside the single sources the addends no longer add up to the total, so groups are worked out apart.
  const grouped = groups.length > 0 ? workingsOf(circuit, { groups: [...alone, ...groups] }) : [];
  const cardsOf = ({ addends }: Working): WholeCard[] =>
    addends.map(({ sources, name, derivation }) => {
      return { card: cardOf(sources), name, derivation, tells: tellsOf(derivation, sources, report, known) };
    });
  return {
    workings: workings.map((working, index): WholeWorking => {
      const { wanted, kind, unit, total, secondMethods } = working;
      const ofGroups = grouped[index] ? cardsOf(grouped[index]).slice(alone.length) : [];
      const ofTotal: WholeCard = { card: TOTAL_CARD, name: null, derivation: total, tells: [] };
      return { wanted, kind, unit, cards: [...cardsOf(working), ...ofGroups, ofTotal], secondMethods };
    }),
    faults: [...workings, ...grouped].flatMap((working) => working.faults),
  };
}
