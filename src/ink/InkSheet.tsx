"use client";

import { type PointerEvent, useCallback, useEffect, useId, useRef } from "react";
import type { Awareness } from "y-protocols/awareness";
import { type EntryId, entryId, type InkColour, type InkNote, isNoteText, isSeenOn } from "../../shared/board";
import { type PanePlace, paneSpot, toScreen, useNoTapThrough, useTouches, useWheel } from "../board";
import type { Person } from "../people";
import { personMark } from "../people";
import { InkLine } from "./InkLine";
import styles from "./ink.module.css";
import type { Paper } from "./inkColours";
import { pixelSpot } from "./inkPath";
import { type InkTool, inkHint } from "./inkTool";
import { inkWords } from "./inkWords";
import { LiveInk } from "./LiveInk";
import { NoteField } from "./NoteField";
import { NoteLayer } from "./NoteLayer";
import { Palm } from "./palm";
import { type InkInput, useInkInput, type Writing } from "./useInkInput";

type Props = Omit<InkInput, "viewport"> & {
  readonly place: PanePlace;
  readonly setTool: (tool: InkTool) => void;
  readonly setColour: (colour: InkColour) => void;
  readonly paper: Paper;
  /** Title of the open addend, null for all sources. */
  readonly addend: string | null;
  /** Sources of the open addend, null for all. */
  readonly openSources: readonly EntryId[] | null;
  readonly people: readonly Person[];
  readonly awareness: Awareness;
};

/**
 * What lies over the drawing for ink: the words on the board, what is being drawn just now, and, while an ink tool is in
 * hand, the sheet that takes pointer and keyboard.
 */
export function InkSheet(props: Props) {
  const { tool, place, marks, paper, colour, people, awareness, openSources } = props;
  const { viewport, size } = place;
  const sheet = useRef<HTMLDivElement>(null);
  const redraw = useRef(() => {});
  const input = useInkInput({ ...props, viewport }, () => redraw.current());
  const setRedraw = useCallback((ready: () => void) => {
    redraw.current = ready;
  }, []);
  const handlers = useSheetHandlers(sheet, props, input);
  const hint = useId();
  const notes = marks.filter((mark): mark is InkNote => mark.kind === "note" && mark.id !== input.writing?.note?.id);
  useEffect(() => {
    if (tool) sheet.current?.focus({ preventScroll: true });
  }, [tool]);
  const active = tool
    ? {
        role: "application",
        tabIndex: 0,
        "aria-label": "Ink on the board",
        "aria-describedby": hint,
        onKeyDown: input.onKeyDown,
        ...handlers,
      }
    : {};
  return (
    <>
      <div ref={sheet} className={styles.sheet} data-tool={tool ?? "none"} {...active}>
        <p className={styles.spoken} data-testid="ink-words">
          {inkWords(marks)}
        </p>
        <NoteLayer
          notes={notes}
          view={viewport.view}
          paper={paper}
          edit={tool === "words" ? (note) => input.setWriting({ at: note.at, note }) : null}
        />
        <LiveInk
          awareness={awareness}
          size={size}
          onReady={setRedraw}
          view={viewport.view}
          paper={paper}
          own={input.progress.current}
          marks={marks}
          arrowColour={colour}
          markOf={(client) => people.find((person) => person.client === client)?.mark ?? personMark(0)}
          isSeen={(stroke) => isSeenOn(stroke, openSources)}
        />
      </div>
      {tool && <InkLine {...props} tool={tool} />}
      {tool && (
        <p id={hint} className={styles.hint}>
          {inkHint(tool, input.ring !== null)}
        </p>
      )}
      {input.writing && (
        <NoteField
          key={input.writing.note?.id ?? "new"}
          words={input.writing.note?.text ?? ""}
          place={fieldPlace(input.writing, place)}
          done={(words) => {
            if (input.writing) writeNote(input.writing, words, props);
            input.setWriting(null);
            sheet.current?.focus({ preventScroll: true });
          }}
          cancel={() => {
            input.setWriting(null);
            sheet.current?.focus({ preventScroll: true });
          }}
        />
      )}
    </>
  );
}

/** Places new words, changes old ones, and takes those away that have become blank. */
function writeNote({ at, note }: Writing, words: string, { command, newId, colour, card }: Props): void {
  if (!isNoteText(words)) {
    if (note) command({ do: "eraseInk", ids: [note.id] });
  } else if (!note) command({ do: "placeNote", id: newId(), colour, card, at, text: words });
  else if (words !== note.text) command({ do: "editNote", id: note.id, text: words });
}

/** The size of the field, which is kept on the pane. */
const FIELD = { width: 292, height: 190 };

function fieldPlace({ at }: Writing, { viewport, size }: PanePlace) {
  const { x, y } = toScreen(viewport.view, pixelSpot(at));
  return {
    left: Math.max(8, Math.min(x - 10, size.width - FIELD.width - 8)),
    top: Math.max(8, Math.min(y - 8, size.height - FIELD.height - 8)),
  };
}

/** The button that a pen tells of when its other end touches: whatever it drew with, it rubs out now. */
const ERASER_END = 5;

function useSheetHandlers(
  sheet: React.RefObject<HTMLDivElement | null>,
  { tool, place, show }: Props,
  input: ReturnType<typeof useInkInput>,
) {
  const { viewport } = place;
  const spotOf = (event: { readonly clientX: number; readonly clientY: number }) => paneSpot(sheet.current, event);
  const touches = useTouches(viewport, spotOf);
  const palm = useRef(new Palm());
  const isWiping = useRef(false);
  useWheel(sheet, viewport);
  useNoTapThrough(sheet);
  const send = (type: "down" | "move" | "up", event: PointerEvent) => {
    const at = input.spotAt(spotOf(event));
    const isPressed = event.buttons !== 0 || type !== "move";
    const used = isWiping.current ? "eraser" : tool;
    const mark =
      isPressed && needsMark(used) ? (noteUnder(event) ?? input.lineAt(at, event.pointerType === "touch")) : null;
    input.send({ type, at, mark }, used);
  };
  return {
    onPointerDown: (event: PointerEvent<HTMLDivElement>) => {
      const isEraser = event.button === ERASER_END && tool !== "point";
      if ((event.button !== 0 && !isEraser) || event.target instanceof HTMLButtonElement) return;
      const whose = palm.current.down(event);
      if (whose === "rests") return;
      event.currentTarget.focus({ preventScroll: true });
      event.currentTarget.setPointerCapture(event.pointerId);
      input.moveRing(null);
      isWiping.current = isEraser;
      if (whose === "pen") {
        touches.forget();
        input.cancel();
        send("down", event);
      } else if (touches.down(event)) input.cancel();
      else send("down", event);
    },
    onPointerMove: (event: PointerEvent<HTMLDivElement>) => {
      if (palm.current.rests(event) || touches.move(event)) return;
      // A quick pointer moves several times between two frames; a line wants all of it.
      const moves = event.nativeEvent.getCoalescedEvents?.() ?? [];
      for (const each of moves.slice(0, -1)) input.send({ type: "move", at: input.spotAt(spotOf(each)), mark: null });
      send("move", event);
    },
    onPointerUp: (event: PointerEvent<HTMLDivElement>) => {
      if (palm.current.up(event)) return;
      if (event.target instanceof HTMLButtonElement && !event.currentTarget.hasPointerCapture(event.pointerId)) return;
      if (event.button === (isWiping.current ? ERASER_END : 0) && !touches.up(event)) send("up", event);
      isWiping.current = false;
    },
    onPointerCancel: (event: PointerEvent<HTMLDivElement>) => {
      if (palm.current.up(event)) return;
      touches.up(event);
      input.cancel();
      isWiping.current = false;
    },
    onPointerLeave: () => show({ pointer: null }),
  };
}

function needsMark(tool: Props["tool"]): boolean {
  return tool === "eraser" || tool === "shift" || tool === "words";
}

/** The note under a pointer. The sheet has captured the pointer, so its events no longer say what lies beneath. */
function noteUnder({ clientX, clientY }: PointerEvent): EntryId | null {
  const under = document.elementsFromPoint(clientX, clientY);
  const note = under.map((element) => element.closest<HTMLElement>("[data-mark]")).find((each) => each !== null);
  return note?.dataset.mark ? entryId(note.dataset.mark) : null;
}
