import type { Awareness } from "y-protocols/awareness";
import {
  applyCommand,
  type Board,
  type BoardCircuit,
  type Command,
  circuitOf,
  EMPTY_BOARD,
  LOCAL,
  readBoard,
} from "../../shared/board";
import {
  type Answers,
  MESSAGE_ANSWERS,
  MESSAGE_NOTICE,
  type Notice,
  readAnswers,
  readNotice,
} from "../../shared/messages";
import { openCopy, type RoomCopy } from "./roomCopy";

/** "joining": not joined yet; "joined": in step with the server; "lost": the line is down, and edits wait in the page. */
export type Link = "joining" | "joined" | "lost" | "refused";

/** Everything of a room that a page draws from, replaced whole at each change. */
export type RoomState = {
  readonly board: Board;
  readonly circuit: BoardCircuit;
  readonly answers: Answers | null;
  readonly link: Link;
  /** When the line went down, in ms; null while it is up. */
  readonly lostSince: number | null;
  /** Whether this browser keeps what is drawn over a reload of the page; null until that is known. */
  readonly isKept: boolean | null;
  readonly notice: Notice | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
  /** Of the current copy of the room: another one after a repair. */
  readonly awareness: Awareness;
};

/** The page's end of a room: a store for `useSyncExternalStore`, and the commands that change the room. */
export type RoomConnection = {
  readonly getState: () => RoomState;
  readonly subscribe: (listener: () => void) => () => void;
  readonly command: (command: Command) => void;
  readonly undo: () => void;
  readonly redo: () => void;
  readonly close: () => void;
};

/** Joins a room over the WebSocket at `address` (`ws://…/sync`). `now` gives milliseconds. */
export function joinRoom(address: string, room: string, now: () => number): RoomConnection {
  const listeners = new Set<() => void>();
  const change = (part: Partial<RoomState>) => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };
  const copy = openRoomCopy(address, room, change, () => state, now);
  let state = initialState(copy);
  return {
    getState: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    command: (command) => applyCommand(copy.doc, command, LOCAL),
    undo: () => copy.history.undo(),
    redo: () => copy.history.redo(),
    close: () => copy.close(),
  };
}

function openRoomCopy(
  address: string,
  room: string,
  change: (part: Partial<RoomState>) => void,
  getState: () => RoomState,
  now: () => number,
): RoomCopy {
  const copy = openCopy(address, room, {
    onChange: () => {
      const board = readBoard(copy.doc);
      change({ board, circuit: circuitOf(board) });
    },
    onHistory: () => change({ canUndo: copy.history.canUndo(), canRedo: copy.history.canRedo() }),
    onJoined: () => change({ link: "joined", lostSince: null }),
    onLost: () => change({ link: "lost", lostSince: getState().lostSince ?? now() }),
    onRefused: () => change({ link: "refused" }),
    onKept: (isKept) => change({ isKept }),
  });
  copy.handle(MESSAGE_ANSWERS, (decoder) => change({ answers: readAnswers(decoder) }));
  copy.handle(MESSAGE_NOTICE, (decoder) => change({ notice: readNotice(decoder) }));
  return copy;
}

function initialState(copy: RoomCopy): RoomState {
  return {
    board: EMPTY_BOARD,
    circuit: circuitOf(EMPTY_BOARD),
    answers: null,
    link: "joining",
    lostSince: null,
    isKept: null,
    notice: null,
    canUndo: false,
    canRedo: false,
    awareness: copy.awareness,
  };
}
