import { explanationWords } from "../../shared/check/mistakes";
import type { Rung } from "../../shared/messages";
import type { Moment, ReplayEntry, ReplayHelp, ReplaySettings } from "../../shared/replay";
import type { RoomAccess } from "../access";
import {
  givenRungs,
  givenStepRungs,
  type HelpGiven,
  readHelpEvent,
  readStep,
  readStepEvent,
  readTry,
  toldJudgement,
  toldOf,
  toldRung,
} from "../check";
import { ENTRY, type HistoryEntry, jsonBytes } from "../history";
import { OF_ACCESS, readChange } from "../room/accessHistory";
import type { Persons } from "./persons";
import type { Viewer } from "./viewer";

const NOTHING = new Uint8Array();
/** Kinds whose bytes are sent as they are stored: they name nobody, and everybody in the room saw what they say. */
const PLAIN: readonly string[] = [ENTRY.update, ENTRY.pointers, ENTRY.look, ENTRY.call, ENTRY.solved, ENTRY.chapter];

/**
 * An entry as a replay is sent it: participants by number, without names, and without what pages are never sent. An entry
 * of a kind that is not known here keeps its place and has no bytes. `access` is the room's right after the entry. An
 * instructor is sent what explains a wrong value, the reasons that were given, and what questions were answered with,
 * besides.
 */
export function forReplay(entry: HistoryEntry, access: RoomAccess, persons: Persons, viewer: Watching): ReplayEntry {
  const { sequence, time, kind } = entry;
  const participant = persons.number(entry.participant);
  return { sequence, time, participant, kind, bytes: bytesOf(entry, access, persons, viewer) };
}

/** Who a replay is sent to, as far as that decides what. */
export type Watching = Pick<Viewer, "as" | "participant">;

/**
 * A moment as somebody who doesn't instruct is told it, of one that has what everybody answered; `you` is their number,
 * null for none.
 */
export function momentFor(moment: Moment, you: number | null): Moment {
  const tries = moment.tries.map((made) => {
    if (made.help === null) return made;
    const questions = made.help.questions.map((each) => {
      const { answer } = each;
      return answer === null || answer.participant === you ? each : { ...each, answer: { ...answer, said: null } };
    });
    return { ...made, help: { ...made.help, questions } };
  });
  return { ...moment, tries };
}

function bytesOf(entry: HistoryEntry, access: RoomAccess, persons: Persons, viewer: Watching): Uint8Array {
  const { kind, bytes } = entry;
  const { as } = viewer;
  if (PLAIN.includes(kind)) return bytes;
  if (OF_ACCESS.includes(kind)) return settingBytes(bytes, access, persons);
  if (kind === ENTRY.help) return rungBytes(bytes);
  if (kind === ENTRY.question) {
    return questionBytes(bytes, as === "instructor" || entry.participant === viewer.participant);
  }
  if (kind === ENTRY.reason) return as === "instructor" ? reasonBytes(bytes) : NOTHING;
  return kind === ENTRY.try ? tryBytes(bytes, persons, as) : NOTHING;
}

function settingBytes(bytes: Uint8Array, access: RoomAccess, persons: Persons): Uint8Array {
  const change = readChange(bytes);
  if (!change) return NOTHING;
  const about = "participant" in change ? { participant: persons.number(change.participant) } : {};
  // Names are those of the list of participants, which knows who may be called by theirs.
  const { name: _, ...told } = { name: "", ...change };
  return jsonBytes({ change: { ...told, ...about }, settings: settingsOf(access) });
}

/** What a replay is told of a room's access. */
export function settingsOf({ drawing, answers, lines, trying, isLocked, isEnded }: RoomAccess): ReplaySettings {
  return { drawing, answers, lines, trying, isLocked, isEnded };
}

/**
 * A try as everybody in the room was told it: without the answer's key, and without the mistakes that explain it, of which
 * instructors are told the likeliest.
 */
function tryBytes(bytes: Uint8Array, persons: Persons, as: Viewer["as"]): Uint8Array {
  const made = readTry(bytes);
  if (!made) return stepBytes(bytes, persons, as);
  const { wanted, card, text, count, help } = made;
  // At the right value the help with the one before may stand.
  const isWrong = made.judgement.outcome === "wrong";
  const [likeliest] = as === "instructor" && isWrong ? (help?.thinkable ?? []) : [];
  const mistake = likeliest && { mistake: explanationWords(likeliest).deed };
  const given = help && helpOf(givenRungs(help), help, persons, as);
  return jsonBytes({ wanted, card, text, count, judgement: toldJudgement(made), ...mistake, ...given });
}

/** The help that had been given when something was tried, as everybody was told it; nothing where none had. */
function helpOf(
  rungs: readonly Rung[],
  { reason }: HelpGiven,
  persons: Persons,
  as: Viewer["as"],
): { readonly help?: Omit<ReplayHelp, "questions"> } {
  const told =
    reason && as === "instructor" ? { participant: persons.number(reason.participant), text: reason.text } : null;
  return rungs.length === 0 && told === null ? {} : { help: { rungs, reason: told } };
}

/** A rung of help in the words in which everybody was given it, without the mistake that it is about. */
function rungBytes(bytes: Uint8Array): Uint8Array {
  const ofTry = readHelpEvent(bytes);
  if (ofTry?.did === "giveRung") {
    const { wanted, card, count } = ofTry;
    return jsonBytes({ wanted, card, count, ...toldRung(ofTry) });
  }
  const ofStep = readStepEvent(bytes);
  if (ofStep?.did !== "giveStepRung") return NOTHING;
  const { step, card, count } = ofStep;
  return jsonBytes({ step, card, count, ...toldRung(ofStep) });
}

/**
 * The question between two ways as everybody was put it, or that it was answered, and how for those to whom it is told:
 * the room told nobody, and the rung that followed may not tell either. Of the mistakes no more than what the question said.
 */
function questionBytes(bytes: Uint8Array, isTold: boolean): Uint8Array {
  const event = readHelpEvent(bytes);
  if (event?.did !== "putQuestion" && event?.did !== "answerQuestion") return NOTHING;
  const { wanted, card, count } = event;
  if (event.did === "putQuestion") {
    const { text, deeds } = event;
    return jsonBytes({ wanted, card, count, text, deeds });
  }
  const { explanation } = event;
  const said = isTold ? { deed: explanation && explanationWords(explanation).deed } : null;
  return jsonBytes({ wanted, card, count, said });
}

/** Why it was so, in the line of whoever made the try or the step. */
function reasonBytes(bytes: Uint8Array): Uint8Array {
  const ofTry = readHelpEvent(bytes);
  if (ofTry?.did === "giveReason") {
    const { wanted, card, count, text } = ofTry;
    return jsonBytes({ wanted, card, count, text });
  }
  const ofStep = readStepEvent(bytes);
  if (ofStep?.did !== "giveStepReason") return NOTHING;
  const { step, card, count, text } = ofStep;
  return jsonBytes({ step, card, count, text });
}

/** A zeroing or a line as everybody was told it. */
function stepBytes(bytes: Uint8Array, persons: Persons, as: Viewer["as"]): Uint8Array {
  const made = readStep(bytes);
  if (!made) return NOTHING;
  const { step, card, count, help } = made;
  const what =
    made.step === "zeroing"
      ? { decisions: made.decisions, outcome: made.judgement.outcome }
      : { text: made.text, told: toldOf(made) };
  return jsonBytes({ step, card, count, ...what, ...(help && helpOf(givenStepRungs(help), help, persons, as)) });
}
