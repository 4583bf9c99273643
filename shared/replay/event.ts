import type {
  HelpQuestion,
  LineCount,
  LineTry,
  MeantStep,
  MeantTry,
  RoomState,
  RoomView,
  Rung,
  Try,
  ZeroingTry,
} from "../messages";
import { type ChapterEdit, readChapterEdit } from "./chapterEdit";
import type { ReplayEntry } from "./chunk";
import { boolean, number, record, text, texts } from "./fields";
import { type PointerSample, readTrack } from "./pointerTrack";

/** What a room allows and shows at a moment. */
export type ReplaySettings = Pick<RoomState, "drawing" | "answers" | "lines" | "trying" | "isLocked" | "isEnded">;

/** What an instructor, or somebody who came in, changed of it; fields that a change of that kind does not have are null. */
export type SettingChange = {
  /** As in RoomAction, and "admit". */
  readonly do: string;
  readonly participant: number | null;
  readonly wanted: string | null;
  readonly card: string | null;
  readonly shown: boolean | null;
  readonly lines: LineCount | null;
  /** Cards whose answers were shown with their lines. */
  readonly reveals: readonly string[];
};

/** The help with what somebody tried, as far as it was asked for. */
export type ReplayHelp = {
  readonly rungs: readonly Rung[];
  /** The questions that were put before the first rung, of which the last may still stand. */
  readonly questions: readonly ReplayQuestion[];
  /** Why it was so, in one line; null before it was given, and held back from those who don't instruct. */
  readonly reason: { readonly participant: number; readonly text: string } | null;
};

/** Which of two ways to a value it was; without an answer as long as it stood. */
export type ReplayQuestion = HelpQuestion & {
  readonly answer: { readonly participant: number; readonly said: SaidAnswer | null } | null;
};

/** The deed that was chosen, in the words of the question; null for neither of them. */
export type SaidAnswer = { readonly deed: string | null };

/** A try as a replay has it: whose it is says the event. */
export type ReplayTry = Pick<Try, "wanted" | "card" | "text" | "judgement" | "count"> & {
  /** What probably led to a wrong value, as "leave V1 on"; null where nothing is known to, and for those who don't instruct. */
  readonly mistake: string | null;
  /** What had been given of it when the value was tried: it stands where the same mistake is made again. */
  readonly help: ReplayHelp | null;
};

/** A zeroing or a line as a replay has it. */
export type ReplayStep =
  | ({ readonly step: "zeroing" } & Pick<ZeroingTry, "card" | "count" | "decisions" | "outcome"> & WithHelp)
  | ({ readonly step: "line" } & Pick<LineTry, "card" | "count" | "text" | "told"> & WithHelp);

type WithHelp = Pick<ReplayTry, "help">;

/** One thing that happened in a room. */
export type ReplayEvent = {
  readonly sequence: number;
  readonly time: number;
  /** Number in the replay's list of participants, 0 for nobody. */
  readonly participant: number;
} & (
  | { readonly kind: "update"; readonly update: Uint8Array }
  | { readonly kind: "setting"; readonly change: SettingChange; readonly settings: ReplaySettings }
  | { readonly kind: "try"; readonly made: ReplayTry }
  | { readonly kind: "step"; readonly made: ReplayStep }
  /** A rung of help that was asked for with a wrong try, in its words. */
  | ({ readonly kind: "help" } & Rung & MeantTry)
  /** The same with a step. */
  | ({ readonly kind: "stepHelp" } & Rung & MeantStep)
  /** Why it was so, in one line; held back from those who don't instruct. */
  | ({ readonly kind: "reason"; readonly text: string } & MeantTry)
  | ({ readonly kind: "stepReason"; readonly text: string } & MeantStep)
  /** Which of two ways it was that led to a try's value. */
  | ({ readonly kind: "question" } & HelpQuestion & MeantTry)
  /** What was said to that; held back from those who don't instruct, unless they said it themselves. */
  | ({ readonly kind: "answer"; readonly said: SaidAnswer | null } & MeantTry)
  | { readonly kind: "join" }
  | { readonly kind: "leave" }
  | { readonly kind: "call"; readonly view: RoomView }
  | { readonly kind: "look"; readonly card: string; readonly wanted: string | null }
  | { readonly kind: "pointers"; readonly samples: readonly PointerSample[] }
  | { readonly kind: "solved"; readonly wanted: readonly string[] }
  | { readonly kind: "chapter"; readonly edit: ChapterEdit }
  /** Of a kind that this version does not know, held back from whoever looks, or malformed. */
  | { readonly kind: "other"; readonly name: string }
);

const HELP_TOLD = ["help", "stepHelp", "reason", "stepReason", "question", "answer"] as const;

/** What somebody was told, asked or said about what was tried. */
export type HelpTold = Extract<ReplayEvent, { readonly kind: (typeof HELP_TOLD)[number] }>;

export function isHelpTold(event: ReplayEvent): event is HelpTold {
  return HELP_TOLD.some((kind) => kind === event.kind);
}

type What<T> = T extends ReplayEvent ? Omit<T, "sequence" | "time" | "participant"> : never;

/** Reads an entry of a replay, whatever it holds. Never throws: what can't be read is "other". */
export function readEvent(entry: ReplayEntry): ReplayEvent {
  const { sequence, time, participant, kind } = entry;
  const what = readKnown(entry) ?? { kind: "other" as const, name: kind };
  return { sequence, time, participant, ...what };
}

function readKnown({ kind, bytes, time }: ReplayEntry): What<ReplayEvent> | null {
  switch (kind) {
    case "update":
      return bytes.length > 0 ? { kind, update: bytes } : null;
    case "pointers": {
      const samples = readTrack(bytes, time);
      return samples && { kind, samples };
    }
    case "join":
    case "leave":
      return { kind };
    default:
      return readJsonKind(kind, record(json(bytes)));
  }
}

function readJsonKind(kind: string, fields: Readonly<Record<string, unknown>> | null): What<ReplayEvent> | null {
  if (!fields) return null;
  switch (kind) {
    case "settings":
    case "reveal":
    case "lines":
      return readSetting(fields);
    case "try":
      return "step" in fields ? readStep(fields) : readTry(fields);
    case "call":
      return readCall(fields);
    case "look": {
      const card = text(fields.card);
      return card === null ? null : { kind, card, wanted: text(fields.wanted) };
    }
    case "help":
    case "reason":
      return "step" in fields ? readOfStep(kind, fields) : readOfTry(kind, fields);
    case "question":
      return "said" in fields ? readAnswer(fields) : readQuestion(fields);
    case "solved":
      return { kind, wanted: texts(fields.wanted) };
    case "chapter": {
      const edit = readChapterEdit(fields);
      return edit && { kind, edit };
    }
    default:
      return null;
  }
}

function readSetting(fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const change = record(fields.change);
  const settings = record(fields.settings);
  const answers = record(settings?.answers);
  const lines = record(settings?.lines);
  const what = text(change?.do);
  if (!change || !settings || !answers || !lines || what === null) return null;
  return {
    kind: "setting",
    change: {
      do: what,
      participant: number(change.participant),
      wanted: text(change.wanted),
      card: text(change.card),
      shown: boolean(change.shown),
      lines: change.lines === "all" ? "all" : number(change.lines),
      reveals: texts(change.reveals),
    },
    // The server writes these whole, as it does a room's state.
    settings: settings as ReplaySettings,
  };
}

function readTry(fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const [wanted, card, entered] = [text(fields.wanted), text(fields.card), text(fields.text)];
  const judgement = record(fields.judgement);
  const outcome = text(judgement?.outcome);
  if (wanted === null || card === null || entered === null || outcome === null) return null;
  const count = number(fields.count) ?? 1;
  const [mistake, help] = [text(fields.mistake), readHelp(fields.help)];
  const made = { wanted, card, text: entered, judgement, count, mistake, help };
  return { kind: "try", made: made as ReplayTry };
}

function readStep(fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const [card, count] = [text(fields.card), number(fields.count)];
  if (card === null || count === null) return null;
  const [decisions, outcome, line, told] = [
    record(fields.decisions),
    text(fields.outcome),
    text(fields.text),
    record(fields.told),
  ];
  const help = readHelp(fields.help);
  // The server writes what is said of them whole, as everybody in the room was told it.
  if (fields.step === "zeroing" && decisions && outcome !== null) {
    return { kind: "step", made: { step: "zeroing", card, count, help, decisions, outcome } as ReplayStep };
  }
  if (fields.step === "line" && line !== null && text(told?.outcome) !== null) {
    return { kind: "step", made: { step: "line", card, count, help, text: line, told } as ReplayStep };
  }
  return null;
}

/** What was said about a try. */
function readOfTry(kind: "help" | "reason", fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const [about, words] = [readMeant(fields), text(fields.text)];
  if (!about || words === null) return null;
  return kind === "help" ? { kind, ...about, ...rungOf(words, fields) } : { kind, ...about, text: words };
}

function readMeant(fields: Readonly<Record<string, unknown>>): MeantTry | null {
  const [wanted, card, count] = [text(fields.wanted), text(fields.card), number(fields.count)];
  return wanted === null || card === null || count === null ? null : { wanted, card, count };
}

function readQuestion(fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const [about, words] = [readMeant(fields), text(fields.text)];
  const [first, second] = texts(fields.deeds);
  if (!about || words === null || first === undefined || second === undefined) return null;
  return { kind: "question", ...about, text: words, deeds: [first, second] };
}

function readAnswer(fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const [about, said] = [readMeant(fields), record(fields.said)];
  return about && { kind: "answer", ...about, said: said && { deed: text(said.deed) } };
}

/** The same about a step. */
function readOfStep(kind: "help" | "reason", fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const [step, card, words, count] = [text(fields.step), text(fields.card), text(fields.text), number(fields.count)];
  if (step !== "zeroing" && step !== "line") return null;
  if (card === null || words === null || count === null) return null;
  const about = { step, card, count } as const;
  return kind === "help"
    ? { kind: "stepHelp", ...about, ...rungOf(words, fields) }
    : { kind: "stepReason", ...about, text: words };
}

function rungOf(words: string, { parts, nodes }: Readonly<Record<string, unknown>>): Rung {
  return { text: words, parts: texts(parts), nodes: texts(nodes) };
}

function readHelp(value: unknown): ReplayHelp | null {
  const help = record(value);
  if (!help) return null;
  const rungs = Array.isArray(help.rungs) ? help.rungs : [];
  const reason = record(help.reason);
  const [participant, why] = [number(reason?.participant), text(reason?.text)];
  return {
    rungs: rungs.flatMap((each: unknown) => {
      const fields = record(each);
      const words = text(fields?.text);
      return fields && words !== null ? rungOf(words, fields) : [];
    }),
    // With the try came no question: one is put when help is asked for.
    questions: [],
    reason: participant === null || why === null ? null : { participant, text: why },
  };
}

function readCall(fields: Readonly<Record<string, unknown>>): What<ReplayEvent> | null {
  const card = text(fields.card);
  const center = Array.isArray(fields.center) ? fields.center.map(number) : [];
  const [x = null, y = null] = center;
  const scale = number(fields.scale);
  if (card === null || x === null || y === null || scale === null) return null;
  return { kind: "call", view: { card, wanted: text(fields.wanted), center: [x, y], scale } };
}

function json(bytes: Uint8Array): unknown {
  try {
    return JSON.parse(new TextDecoder().decode(bytes));
  } catch {
    return null;
  }
}
