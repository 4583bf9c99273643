"use client";

import { useCallback, useMemo, useState } from "react";
import type { Board, BoardCircuit, EntryId } from "../../shared/board";
import type { Answers, HiddenReport } from "../../shared/messages";
import type { NodeReport, PartReport } from "../../shared/solve/report";
import { buildFigure, type Figure, type FigureView, type SymbolSet } from "../figure";
import { chosenCard, type SumCard, sourceAccents, sumCards, TOTAL } from "../sum";
import { redrawnFigure } from "./redrawn";

export type Shows = {
  readonly voltages: boolean;
  readonly currents: boolean;
  /** An addend's circuit drawn anew in place of the board. */
  readonly redrawn: boolean;
};

/** What a person looks at in a room: the wanted quantity in focus, the card that is open, the figure that goes with it. */
export function useRoomView(
  board: Board,
  circuit: BoardCircuit,
  answers: Answers | null,
  shows: Shows,
  symbols: SymbolSet,
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
        hasLabels: true,
        voltages: shows.voltages ? values.nodes : null,
        currents: shows.currents ? values.parts : null,
      }),
    [board, common, card, shows, values],
  );
  const redrawn = useMemo(
    () =>
      shows.redrawn && card?.acting
        ? redrawnFigure(board, circuit, {
            ...common,
            acting: card.acting,
            primes: card.primes,
            wantedNames: report?.wanted.map(({ name }) => name) ?? [],
            voltages: shows.voltages ? values.nodes : null,
            currents: shows.currents ? values.parts : null,
          })
        : null,
    [board, circuit, common, card, report, shows, values],
  );
  // Of a board that is only tried the values are not known.
  const figureWith = useCallback(
    (tried: Board) =>
      buildFigure(tried, { ...common, ...actingOf(card), hasLabels: true, voltages: null, currents: null }),
    [common, card],
  );
  const thumbnails = useMemo(
    () => new Map(cards.map((each) => [each.key, thumbnail(board, common, each)])),
    [cards, board, common],
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
    setCard,
    values,
    figure,
    redrawn,
    figureWith,
    figureOf,
  };
}

type Common = Pick<FigureView, "accents" | "wantedNames" | "focus" | "nodeAt" | "symbols">;

function thumbnail(board: Board, common: Common, card: SumCard): Figure {
  return buildFigure(board, {
    ...common,
    ...actingOf(card),
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
