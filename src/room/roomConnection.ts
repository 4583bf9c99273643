import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import {
  applyCommand,
  type Board,
  type BoardCircuit,
  type Command,
  circuitOf,
  LOCAL,
  ownHistory,
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

/** "joining": not joined yet; "joined": in step with the server; "lost": the line is down, and edits wait in the page. */
export type Link = "joining" | "joined" | "lost" | "refused";

/** Everything of a room that a page draws from, replaced whole at each change. */
export type RoomState = {
  readonly board: Board;
  readonly circuit: BoardCircuit;
  readonly answers: Answers | null;
  readonly link: Link;
  readonly notice: Notice | null;
  readonly canUndo: boolean;
  readonly canRedo: boolean;
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

/** Joins a room over the WebSocket at `address` (`ws://…/sync`). */
export function joinRoom(address: string, room: string): RoomConnection {
  const doc = new Y.Doc();
  const history = ownHistory(doc);
  const provider = new WebsocketProvider(address, room, doc, { params: { answers: "1" }, disableBc: true });
  const listeners = new Set<() => void>();
  let state = initialState(doc);
  const change = (part: Partial<RoomState>) => {
    state = { ...state, ...part };
    for (const listener of listeners) listener();
  };

  doc.on("update", () => {
    const board = readBoard(doc);
    change({ board, circuit: circuitOf(board) });
  });
  history.observe(() => change({ canUndo: history.canUndo(), canRedo: history.canRedo() }));
  provider.messageHandlers[MESSAGE_ANSWERS] = (_encoder, decoder) => change({ answers: readAnswers(decoder) });
  provider.messageHandlers[MESSAGE_NOTICE] = (_encoder, decoder) => change({ notice: readNotice(decoder) });
  provider.on("sync", (isSynced: boolean) => isSynced && change({ link: "joined" }));
  provider.on("status", ({ status }) => {
    if (status === "disconnected") change({ link: "lost" });
  });
  provider.on("connection-close", () => state.link === "joining" && change({ link: "lost" }));
  provider.on("closed", () => change({ link: "refused" }));

  return {
    getState: () => state,
    subscribe: (listener) => {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    command: (command) => applyCommand(doc, command, LOCAL),
    undo: history.undo,
    redo: history.redo,
    close: () => {
      provider.destroy();
      history.destroy();
      doc.destroy();
    },
  };
}

function initialState(doc: Y.Doc): RoomState {
  const board = readBoard(doc);
  return {
    board,
    circuit: circuitOf(board),
    answers: null,
    link: "joining",
    notice: null,
    canUndo: false,
    canRedo: false,
  };
}
