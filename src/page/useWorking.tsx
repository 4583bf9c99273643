"use client";

import { type ReactNode, useCallback, useEffect, useMemo, useRef, useState } from "react";
import { type EntryId, fileFromBoard } from "../../shared/board";
import type { Line } from "../../shared/derive";
import { isShown, TOTAL_CARD, tidyCard, type WorkingCard } from "../../shared/messages";
import { entryBox, type PanePlace, toWorld } from "../board";
import { type Box, boxOfBoxes, PAPERS, type Tone } from "../figure";
import { coveredByInk, noteSize } from "../ink";
import type { RoomConnection, RoomState } from "../room";
import type { PaperSettings } from "../settings";
import { type CardTries, type SumCard, TOTAL, TryPanelPlace, titleOfSources } from "../sum";
import {
  type Drawn,
  type LineTools,
  LitSketch,
  type LitStore,
  litStore,
  noteText,
  panelView,
  placeForNote,
  useLitLayers,
  WorkingPanel,
} from "../working";
import type { useRoomView } from "./useRoomView";
import type { Steps } from "./useSteps";

type Input = {
  readonly state: Pick<RoomState, "board" | "circuit" | "ink" | "room" | "workings" | "answers">;
  readonly connection: Pick<RoomConnection, "command" | "request">;
  readonly view: ReturnType<typeof useRoomView>;
  readonly settings: PaperSettings;
  readonly newId: () => EntryId;
  /** Sources of the open addend, null for all. */
  readonly openSources: readonly EntryId[] | null;
  readonly triesOf: (card: SumCard) => CardTries | null;
  /** What is checked at the open card; null where nothing can be. */
  readonly steps: Steps | null;
};

/** The working of the open card on the page of a room: its panel, its light on the board, and pinning. */
export function useWorking(input: Input) {
  const { state, connection, view, settings } = input;
  const { board, circuit, room, workings, answers } = state;
  const [lit] = useState(litStore);
  const tone: Tone = view.card?.accent ?? "ink";
  const drawn = useMemo((): Drawn => ({ ...circuit, board, figure: view.figure }), [circuit, board, view.figure]);
  const layers = useLitLayers(lit, drawn, tone, PAPERS[settings.paper]);
  const [seen, pin] = usePinning(input, drawn);
  const tools = useMemo(
    (): LineTools => ({
      order: settings.equations,
      lit,
      sketchView: {
        circuit: circuit.circuit,
        like: fileFromBoard(board).drawing,
        accents: view.accents,
        symbols: settings.symbols,
      },
      pin: room?.you.mayDraw ? pin : null,
    }),
    [settings, lit, circuit, board, view.accents, room?.you.mayDraw, pin],
  );
  const wanted = view.wanted?.name ?? null;
  const openCard = view.card?.key ?? TOTAL;
  const shown = useMemo(
    () => panelView({ workings, answers, wanted, card: openCard, sumCards: view.cards.map(({ key }) => key) }),
    [workings, answers, wanted, openCard, view.cards],
  );
  const sketch = <LitSketch lit={lit} drawn={drawn} tone={tone} />;
  const panel: ReactNode = (
    <WorkingPanel
      view={shown}
      card={view.card}
      settings={settings}
      tools={tools}
      powerTable={workings?.powerTable ?? null}
      titleOf={(card) => titleOf(card, view)}
      isHidden={({ card }) => isHidden(card, view)}
      trying={
        <>
          {input.steps?.zeroing(lit, sketch)}
          {tryPanel(input, lit, sketch)}
          {input.steps?.lines(lit, sketch)}
        </>
      }
      stepping={
        room?.you.role === "instructor" && !room.isEnded
          ? {
              answers: room.answers,
              hidden: view.cards
                .filter(({ key, acting }) => acting && !isShown(room.answers, key))
                .map((card) => card.title),
              request: connection.request,
            }
          : null
      }
    />
  );
  const overlay = (place: PanePlace): ReactNode => <SeenReport place={place} report={seen} />;
  return { panel, layers, lit, tone, overlay };
}

/** What is tried at the open card. */
function tryPanel({ state, view, triesOf }: Input, lit: LitStore, sketch: ReactNode): ReactNode {
  const { card, wanted } = view;
  const tries = card && triesOf(card);
  if (!card || !wanted || !tries) return null;
  const { room } = state;
  return (
    <TryPanelPlace
      key={`${wanted.name} ${card.key}`}
      {...{ card, tries, sketch }}
      name={wanted.name}
      hasCount={room?.you.role === "instructor" && !room.isEnded}
      light={lit.light}
    />
  );
}

/** Whether a card's answer is not on this page. */
function isHidden(card: string, { cards, report }: Input["view"]): boolean {
  const own = cards.find(({ key }) => tidyCard(key) === card);
  return own ? own.isHidden : (report?.hidden.some((key) => tidyCard(key) === card) ?? false);
}

function titleOf({ card }: WorkingCard, { cards }: Input["view"]): string {
  const own = cards.find(({ key }) => tidyCard(key) === card);
  if (own) return own.title;
  return card === TOTAL_CARD ? "All sources" : titleOfSources(card.split("+"));
}

/** What of the board is on the screen, and how a line is pinned to it. */
function usePinning({ state, connection, settings, newId, openSources }: Input, drawn: Drawn) {
  const seen = useRef<Box | null>(null);
  const pin = useRef<NonNullable<LineTools["pin"]>>(() => false);
  pin.current = (line) => {
    const text = noteText(line, settings.equations);
    if (text === null) return false;
    const { figure } = drawn;
    const size = noteSize(text);
    const boxes = line.parts.flatMap((name) => {
      const entry = drawn.entryOf.get(name);
      return (entry && entryBox(entry, drawn.board, figure)) ?? [];
    });
    const about = boxes.length > 0 ? boxOfBoxes(boxes) : figure.extent;
    const covered = [...figure.covered, ...coveredByInk(state.ink.marks, openSources, noteSize)];
    const at = placeForNote(size, about, figure.extent, covered, seen.current ?? figure.extent);
    connection.command({ do: "placeNote", id: newId(), colour: "ink", card: openSources ?? [], at, text });
    return true;
  };
  const stable = useCallback((line: Line) => pin.current(line), []);
  return [seen, stable] as const;
}

/** Room that words on the pane take from its top and its foot, in pixels. */
const EDGE = 44;

type SeenProps = { readonly place: PanePlace; readonly report: React.RefObject<Box | null> };

/** Keeps what part of the board is on the screen. */
function SeenReport({ place: { viewport, size }, report }: SeenProps) {
  const { view } = viewport;
  useEffect(() => {
    const corner = toWorld(view, { x: 0, y: EDGE });
    report.current = { ...corner, width: size.width / view.scale, height: (size.height - 2 * EDGE) / view.scale };
  }, [view, size, report]);
  return null;
}
