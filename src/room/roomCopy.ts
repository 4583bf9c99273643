import type { Decoder } from "lib0/decoding";
import type { Awareness } from "y-protocols/awareness";
import { WebsocketProvider } from "y-websocket";
import * as Y from "yjs";
import {
  type Board,
  type Ink,
  NO_INK,
  type OwnHistory,
  observeBoard,
  observeInk,
  ownHistory,
} from "../../shared/board";
import { type OfflineStore, openOfflineStore } from "./offlineStore";

/** What happens to a copy of a room. */
export type CopyEvents = {
  /** The document changed in what is drawn. */
  readonly onChange: (board: Board) => void;
  /** The document changed in its ink. */
  readonly onInk: (ink: Ink) => void;
  /** The history of one's own commands changed. */
  readonly onHistory: () => void;
  /** In step with the server. */
  readonly onJoined: () => void;
  /** The line is down, or could not be put up; `wasOpen` tells which. */
  readonly onLost: (wasOpen: boolean) => void;
  /** The server has closed the room to this page for good. */
  readonly onRefused: () => void;
  /** What this browser had kept is in the document; false where it keeps nothing. */
  readonly onKept: (isKept: boolean) => void;
};

/** One copy of a room's document, with all that hangs on it. A repair throws it away and opens another. */
export type RoomCopy = {
  readonly doc: Y.Doc;
  readonly history: OwnHistory;
  readonly awareness: Awareness;
  readonly store: OfflineStore;
  readonly getInk: () => Ink;
  /** Takes messages of our own, by their first number. */
  readonly handle: (message: number, read: (decoder: Decoder) => void) => void;
  /** Sends a message of our own; false where the line is down. */
  readonly send: (message: Uint8Array) => boolean;
  readonly close: () => void;
};

/** Opens a copy of the room at `address` (`ws://…/sync`), and joins what this browser has kept of it. */
export function openCopy(address: string, room: string, events: CopyEvents): RoomCopy {
  const doc = new Y.Doc();
  const history = ownHistory(doc);
  const store = openOfflineStore(room, doc);
  const provider = new WebsocketProvider(address, room, doc, { params: { answers: "1" }, disableBc: true });
  const { awareness } = provider;
  let ink = NO_INK;
  observeBoard(doc, events.onChange);
  observeInk(doc, (now) => {
    ink = now;
    events.onInk(now);
  });
  history.observe(events.onHistory);
  provider.on("sync", (isSynced: boolean) => {
    if (!isSynced) return;
    // The server forgot this page's state with its old connection, and takes none that is not newer than the last.
    awareness.setLocalState(awareness.getLocalState() ?? {});
    events.onJoined();
  });
  provider.on("connection-close", () => events.onLost(provider.wsconnected));
  provider.on("closed", events.onRefused);
  void store.whenLoaded.then(events.onKept);
  // A line that has died with the network says so itself only after half a minute; one that lives is up again at once.
  const lookAgain = () => {
    provider.disconnect();
    provider.connect();
  };
  window.addEventListener("offline", lookAgain);
  return {
    doc,
    history,
    awareness,
    store,
    getInk: () => ink,
    handle: (message, read) => {
      provider.messageHandlers[message] = (_encoder, decoder) => read(decoder);
    },
    send: (message) => {
      const isOpen = provider.wsconnected && provider.ws?.readyState === WebSocket.OPEN;
      if (isOpen) provider.ws?.send(message as Uint8Array<ArrayBuffer>);
      return isOpen;
    },
    close: () => {
      window.removeEventListener("offline", lookAgain);
      provider.destroy();
      store.close();
      history.destroy();
      doc.destroy();
    },
  };
}
