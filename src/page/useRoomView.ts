"use client";

import { useCallback, useMemo, useState } from "react";
import type { Board, BoardCircuit, EntryId } from "../../shared/board";
import type { Answers, HiddenReport } from "../../shared/messages";
import type { NodeReport, PartReport } from "../../shared/solve/report";
import { buildFigure, type Figure, type FigureView, type SymbolSet } from "../figure";
import { chosenCard, type SumCard, sourceAccents, sumCards, TOTAL } from "../sum";
import { redrawnFigure } from "./redrawn";
import type { Becomes, Zeroing } from "./useZeroing";

export type Shows = {
  readonly voltages: boolean;
  readonly currents: boolean;
  /** An addend's circuit drawn anew in place of the board. */
  readonly redrawn: boolean;
};

const NOTHING_ASKED = () => null;

/** What a person looks at in a room: the wanted quantity in focus, the card that is open, the figure that goes with it. */
export function useRoomView(
  board: Board,
  circuit: BoardCircuit,
  answers: Answers | null,
  shows: Shows,
  symbols: SymbolSet,
  becomesOn: Zeroing["becomesOn"] = NOTHING_ASKED,
) {
  const [focusAsked, setFocus] = useState(0);
  const [cardAsked, setCard] = useState(TOTAL);
  const report = answers?.report ?? null;
  const focus = Math.min(focusAsked, Math.max(0, (report?.wanted.length ?? 0) - 1));
  const wanted = report?.wanted[focus] ?? null;
  const accents = useMemo(() => sourceAccents(board), [board]);
  const cards = useMemo(
    () => (report && wanted ? sumCards(wanted, report, accents, board) : []),
    [report, wanted, accents, board],
  );
  const card = chosenCard(cards, cardAsked);
  const values = useMemo(() => valuesOf(report, card), [report, card]);
  // A value that somebody found in a try of their own is there, and its circuit's values are not.
  const areValuesHidden = report?.hidden.includes(card?.key ?? TOTAL) ?? false;
  const becomes = card && becomesOn(card);
  // Values are those of the circuit with its sources zeroed, which is still to be found.
  const shown = useMemo(
    () => (becomes ? { voltages: false, currents: false, redrawn: false } : shows),
    [becomes, shows],
  );
  const common = useMemo(
    () => ({
      accents,
      wantedNames: wantedNames(circuit, report),
      focus: circuit.wantedEntries[focus] ?? null,
      nodeAt: circuit.nodeAt,
      symbols,
    }),
    [accents, circuit, report, focus, symbols],
  );
  const figure = useMemo(
    () =>
      buildFigure(board, {
        ...common,
        ...actingOf(card),
        becomes,
        hasLabels: true,
        voltages: shown.voltages ? values.nodes : null,
        currents: shown.currents ? values.parts : null,
      }),
    [board, common, card, becomes, shown, values],
  );
  const redrawn = useMemo(
    () =>
      shown.redrawn && card?.acting
        ? redrawnFigure(board, circuit, {
            ...common,
            acting: card.acting,
            primes: card.primes,
            wantedNames: report?.wanted.map(({ name }) => name) ?? [],
            voltages: shown.voltages ? values.nodes : null,
            currents: shown.currents ? values.parts : null,
          })
        : null,
    [board, circuit, common, card, report, shown, values],
  );
  // Of a board that is only tried the values are not known.
  const figureWith = useCallback(
    (tried: Board) =>
      buildFigure(tried, { ...common, ...actingOf(card), becomes, hasLabels: true, voltages: null, currents: null }),
    [common, card, becomes],
  );
  const thumbnails = useMemo(
    () => new Map(cards.map((each) => [each.key, thumbnail(board, common, each, becomesOn(each))])),
    [cards, board, common, becomesOn],
  );
  const figureOf = (each: SumCard): Figure => thumbnails.get(each.key) ?? figure;
  const focusEntry = common.focus;
  const setFocusEntry = (entry: EntryId) => setFocus(Math.max(0, circuit.wantedEntries.indexOf(entry)));
  return {
    accents,
    report,
    wanted,
    focus,
    setFocus,
    focusEntry,
    setFocusEntry,
    cards,
    card,
    /** What the sources of the open card become while that is still to be decided; null where it is drawn. */
    becomes,
    setCard,
    values,
    areValuesHidden,
    figure,
    redrawn,
    figureWith,
    figureOf,
  };
}

type Common = Pick<FigureView, "accents" | "wantedNames" | "focus" | "nodeAt" | "symbols">;

function thumbnail(board: Board, common: Common, card: SumCard, becomes: Becomes | null): Figure {
  return buildFigure(board, {
    ...common,
    ...actingOf(card),
    becomes,
    hasLabels: false,
    voltages: null,
    currents: null,
  });
}

function actingOf(card: SumCard | null): Pick<FigureView, "acting" | "primes"> {
  return { acting: card?.acting ?? null, primes: card?.primes ?? [] };
}

/** The report names every wanted quantity, also those that nobody has named. */
function wantedNames(circuit: BoardCircuit, report: HiddenReport | null): ReadonlyMap<EntryId, string> {
  const named = circuit.wantedEntries.map((entry, i) => [entry, report?.wanted[i]?.name ?? ""] as const);
  return new Map(named.filter(([, name]) => name !== ""));
}

/** Node voltages and branch currents of the circuit that a card opens. */
function valuesOf(
  report: HiddenReport | null,
  card: SumCard | null,
): { readonly nodes: readonly NodeReport[]; readonly parts: readonly PartReport[] } {
  if (!report) return { nodes: [], parts: [] };
  const acting = card?.acting;
  if (!acting) return { nodes: report.nodes, parts: report.parts };
  const isSame = (sources: readonly string[]) => sources.length === acting.size && sources.every((s) => acting.has(s));
  return report.partials.find((partial) => isSame(partial.sources)) ?? { nodes: [], parts: [] };
}
