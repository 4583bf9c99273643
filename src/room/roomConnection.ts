import type { Awareness } from "y-protocols/awareness";
import {
  applyCommand,
  type Board,
  type BoardCircuit,
  type Command,
  circuitOf,
  EMPTY_BOARD,
  type Ink,
  LOCAL,
  NO_INK,
  readBoard,
} from "../../shared/board";
import {
  type Answers,
  type Call,
  type ChangeRefusal,
  type HandIn,
  type HelpAction,
  MESSAGE_ANSWERS,
  MESSAGE_CALL,
  MESSAGE_NOTICE,
  MESSAGE_ROOM,
  MESSAGE_TRIES,
  MESSAGE_WORKINGS,
  type Notice,
  noticeText,
  type RoomAction,
  readAnswers,
  readCall,
  readNotice,
  readRoomState,
  readTries,
  readWorkings,
  type StepAction,
  type StepsMessage,
  type RoomState as TheRoom,
  type TriesMessage,
  type Try,
  type TryAction,
  type TryReply,
  type TryValue,
  type Workings,
  writeRequest,
} from "../../shared/messages";
import { unreachable } from "../../shared/quantity";
import { type CopyEvents, openCopy, type RoomCopy } from "./roomCopy";
import { TryReplies } from "./tryReplies";

/** "joining": not joined yet; "joined": in step with the server; "lost": the line is down, and edits wait in the page. */
export type Link = "joining" | "joined" | "lost" | "refused";

/** Zeroings and lines, as the server tells them. */
export type Steps = Pick<StepsMessage, "zeroings" | "lines">;

/** Everything of a room that a page draws from, replaced whole at each change. */
export type RoomState = {
  readonly board: Board;
  readonly circuit: BoardCircuit;
  readonly ink: Ink;
  readonly answers: Answers | null;
  /** The worked lines as far as this page is sent them; null before the first came. */
  readonly workings: Workings | null;
  /** Who is here and who may do what; null until the server has said so. */
  readonly room: TheRoom | null;
  /** The newest try of each card. */
  readonly tries: readonly Try[];
  /** The newest zeroing of each card, and the lines that people wrote of its circuit. */
  readonly steps: Steps;
  /** The latest "come to me", null before the first. */
  readonly call: Call | null;
  readonly link: Link;
  /** When the line went down, in ms; null while it is up. */
  readonly lostSince: number | null;
  /** Attempts to put the line up that failed since it was up last. */
  readonly failedAttempts: number;
  /** Whether this browser keeps what is drawn over a reload of the page; null until that is known. */
  readonly isKept: boolean | null;
  /** What the server says of its storing. */
  readonly notice: Notice | null;
  /** Why something that this page did was not taken in, until it is dismissed. */
  readonly refusal: string | null;
  /** The instructor has removed this participant, or deleted the room; null while the room can be come back to. */
  readonly gone: "removed" | "deleted" | null;
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
  /** Asks something of the room itself; what comes of it is seen in `room`, or told as a `refusal`. */
  readonly request: (action: RoomAction) => void;
  /** Tries a value for a card; what becomes of it is told to whoever asks, and seen by everybody in `tries`. */
  readonly tryValue: (tried: Omit<TryValue, "do">) => Promise<TryReply>;
  /** Asks or answers something about a try; what comes of it is seen in `tries`. */
  readonly askAboutTry: (action: HelpAction | HandIn | StepAction) => Promise<TryReply>;
  readonly dismissRefusal: () => void;
  readonly close: () => void;
};

/** Joins a room over the WebSocket at `address` (`ws://…/sync`). `now` gives milliseconds. */
export function joinRoom(address: string, room: string, now: () => number): RoomConnection {
  const connected = new ConnectedRoom(address, room, now);
  return {
    getState: () => connected.state,
    subscribe: (listener) => connected.subscribe(listener),
    command: (command) => connected.draw((copy) => applyCommand(copy.doc, command, LOCAL)),
    undo: () => connected.draw((copy) => copy.history.undo()),
    redo: () => connected.draw((copy) => copy.history.redo()),
    request: (action) => connected.request(action),
    tryValue: (tried) => connected.askAboutTry({ do: "tryValue", ...tried }),
    askAboutTry: (action) => connected.askAboutTry(action),
    dismissRefusal: () => connected.change({ refusal: null }),
    close: () => connected.close(),
  };
}

class ConnectedRoom {
  state: RoomState;
  readonly #address: string;
  readonly #room: string;
  readonly #now: () => number;
  readonly #listeners = new Set<() => void>();
  #copy: RoomCopy;
  readonly #replies = new TryReplies();
  #requests = 0;

  constructor(address: string, room: string, now: () => number) {
    this.#address = address;
    this.#room = room;
    this.#now = now;
    this.#copy = this.#open();
    this.state = initialState(this.#copy.awareness);
  }

  subscribe(listener: () => void): () => void {
    this.#listeners.add(listener);
    return () => this.#listeners.delete(listener);
  }

  change(part: Partial<RoomState>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.#listeners) listener();
  }

  /** Changes the document, or says why not: the server refuses it anyway, and then all that waited to be sent with it. */
  draw(act: (copy: RoomCopy) => void): void {
    const why = whyNotDraw(this.state.room);
    if (why) this.change({ refusal: noticeText({ code: "changeRefused", why }) });
    else act(this.#copy);
  }

  request(action: RoomAction): void {
    if (!this.#send(action))
      this.change({ refusal: "The room cannot be reached at the moment, so nothing was changed in it." });
  }

  askAboutTry(action: TryAction): Promise<TryReply> {
    const isSent = this.#send(action);
    return isSent ? this.#replies.to(this.#requests) : Promise.resolve({ outcome: "refused", why: "unreachable" });
  }

  /** Sends a request under the next id; false where the line is down. */
  #send(action: RoomAction): boolean {
    this.#requests += 1;
    return this.#copy.send(writeRequest({ id: this.#requests, ...action }));
  }

  close(): void {
    this.#replies.giveUp();
    this.#listeners.clear();
    this.#copy.close();
  }

  #open(): RoomCopy {
    const events: CopyEvents = {
      onChange: (board) => this.#isShown() && this.change({ board, circuit: circuitOf(board) }),
      onInk: (ink) => this.#isShown() && this.change({ ink }),
      onHistory: () => this.change({ canUndo: copy.history.canUndo(), canRedo: copy.history.canRedo() }),
      onJoined: () => {
        this.change({ link: "joined", lostSince: null, failedAttempts: 0 });
        this.#read(copy);
      },
      onLost: (wasOpen) => {
        const { lostSince, failedAttempts } = this.state;
        const failed = wasOpen ? 0 : failedAttempts + 1;
        this.#replies.giveUp();
        this.change({ link: "lost", lostSince: lostSince ?? this.#now(), failedAttempts: failed });
        this.#read(copy);
      },
      onRefused: () => this.change({ link: "refused" }),
      onKept: (isKept) => {
        this.change({ isKept });
        if (this.#isShown()) this.#read(copy);
      },
    };
    const copy = openCopy(this.#address, this.#room, events);
    copy.handle(MESSAGE_ANSWERS, (decoder) => this.change({ answers: readAnswers(decoder) }));
    copy.handle(MESSAGE_WORKINGS, (decoder) => this.change({ workings: readWorkings(decoder) }));
    copy.handle(MESSAGE_ROOM, (decoder) => this.change({ room: readRoomState(decoder) }));
    copy.handle(MESSAGE_CALL, (decoder) => this.change({ call: readCall(decoder) }));
    copy.handle(MESSAGE_TRIES, (decoder) => this.#hearTries(readTries(decoder)));
    copy.handle(MESSAGE_NOTICE, (decoder) => this.#hear(readNotice(decoder)));
    return copy;
  }

  /** Before a copy is whole, the page goes on showing what it showed. */
  #isShown(): boolean {
    return this.state.link === "joined" || this.state.link === "lost";
  }

  #read(copy: RoomCopy): void {
    const board = readBoard(copy.doc);
    this.change({ board, circuit: circuitOf(board), ink: copy.getInk() });
  }

  #hearTries(message: TriesMessage): void {
    switch (message.about) {
      case "room":
        this.change({ tries: message.tries });
        break;
      case "steps":
        this.change({ steps: { zeroings: message.zeroings, lines: message.lines } });
        break;
      case "request":
        this.#replies.take(message.id, message.reply);
        break;
      default:
        unreachable(message);
    }
  }

  #hear(notice: Notice): void {
    switch (notice.code) {
      case "notStoring":
      case "storingAgain":
        this.change({ notice });
        break;
      case "requestRefused":
        this.change({ refusal: noticeText(notice) });
        break;
      case "changeRefused":
        this.change({ refusal: noticeText(notice) });
        this.#repair();
        break;
      case "removed":
      case "deleted":
        this.#copy.store.forget();
        this.change({ gone: notice.code });
        break;
      case "ended": // The room's state says the same, and goes on saying it.
        break;
      default:
        unreachable(notice);
    }
  }

  /** Drops this page's copy, with the change that the room does not have, and loads the room's own. */
  #repair(): void {
    const old = this.#copy;
    const presence = old.awareness.getLocalState();
    old.store.forget();
    old.close();
    this.state = { ...this.state, link: "joining", isKept: null, canUndo: false, canRedo: false };
    this.#copy = this.#open();
    this.#copy.awareness.setLocalState(presence);
    this.change({ awareness: this.#copy.awareness });
  }
}

function whyNotDraw(room: TheRoom | null): ChangeRefusal | null {
  if (!room || room.you.mayDraw) return null;
  return room.isEnded ? "ended" : room.isLocked ? "locked" : "notAllowed";
}

function initialState(awareness: Awareness): RoomState {
  return {
    board: EMPTY_BOARD,
    circuit: circuitOf(EMPTY_BOARD),
    ink: NO_INK,
    answers: null,
    workings: null,
    room: null,
    tries: [],
    steps: { zeroings: [], lines: [] },
    call: null,
    link: "joining",
    lostSince: null,
    failedAttempts: 0,
    isKept: null,
    notice: null,
    refusal: null,
    gone: null,
    canUndo: false,
    canRedo: false,
    awareness,
  };
}
