import { isMeantStep, isMeantTry, type RoomView, USUAL_TRYING, withStep, withTry } from "../messages";
import { unreachable } from "../quantity";
import type { HelpTold, ReplayEvent, ReplayHelp, ReplaySettings, ReplayStep, ReplayTry } from "./event";

/** A room at a moment, besides its board: right after entry `sequence`. Plain JSON. */
export type Moment = {
  readonly sequence: number;
  /** Milliseconds since 1970; 0 before anything happened. */
  readonly time: number;
  readonly settings: ReplaySettings;
  /** Numbers of those who are in the room, in the order in which they came. */
  readonly here: readonly number[];
  /** What each of them looks at, as far as their page has said so. */
  readonly looks: readonly Look[];
  /** The newest try of each card. */
  readonly tries: readonly MadeTry[];
  /** The newest zeroing of each card, and the lines. */
  readonly steps: readonly MadeStep[];
  /** The last "come to me"; null before the first. */
  readonly call: { readonly participant: number; readonly sequence: number; readonly view: RoomView } | null;
};

export type Look = { readonly participant: number; readonly card: string; readonly wanted: string | null };
export type MadeTry = ReplayTry & { readonly participant: number; readonly time: number };
export type MadeStep = ReplayStep & { readonly participant: number; readonly time: number };

/** A room to which nothing has happened. */
export const BEGINNING: Moment = {
  sequence: 0,
  time: 0,
  settings: {
    drawing: "everyone",
    answers: { shown: true, except: [] },
    lines: { shown: false, except: [] },
    trying: USUAL_TRYING,
    isLocked: false,
    isEnded: false,
  },
  here: [],
  looks: [],
  tries: [],
  steps: [],
  call: null,
};

/** The room after one more event. */
export function afterEvent(before: Moment, event: ReplayEvent): Moment {
  const { sequence, time, participant } = event;
  const moment = { ...before, sequence, time };
  switch (event.kind) {
    case "setting":
      return { ...moment, settings: event.settings };
    case "try":
      return { ...moment, tries: withTry(before.tries, { ...event.made, participant, time }) };
    case "step":
      return { ...moment, steps: withStep(before.steps, { ...event.made, participant, time }) };
    case "help":
    case "reason":
    case "question":
    case "answer":
      return {
        ...moment,
        tries: before.tries.map((each) =>
          isMeantTry(each, event) ? { ...each, help: helpAfter(each.help, event) } : each,
        ),
      };
    case "stepHelp":
    case "stepReason":
      return {
        ...moment,
        steps: before.steps.map((each) =>
          isMeantStep(each, event) ? { ...each, help: helpAfter(each.help, event) } : each,
        ),
      };
    case "join":
      return { ...moment, here: [...without(before.here, participant), participant] };
    case "leave":
      return {
        ...moment,
        here: without(before.here, participant),
        looks: before.looks.filter((look) => look.participant !== participant),
      };
    case "look": {
      const others = before.looks.filter((look) => look.participant !== participant);
      return { ...moment, looks: [...others, { participant, card: event.card, wanted: event.wanted }] };
    }
    case "call":
      return { ...moment, call: { participant, sequence, view: event.view } };
    case "update":
    case "pointers":
    case "solved":
    case "chapter":
    case "other":
      return moment;
    default:
      return unreachable(event);
  }
}

const NO_HELP: ReplayHelp = { rungs: [], questions: [], reason: null };

/** The help with something, with what was said or asked about it next. */
function helpAfter(before: ReplayHelp | null, event: HelpTold): ReplayHelp {
  const help = before ?? NO_HELP;
  const { participant } = event;
  switch (event.kind) {
    case "help":
    case "stepHelp": {
      const { text, parts, nodes } = event;
      return { ...help, rungs: [...help.rungs, { text, parts, nodes }] };
    }
    case "reason":
    case "stepReason":
      return { ...help, reason: { participant, text: event.text } };
    case "question": {
      const { text, deeds } = event;
      return { ...help, questions: [...help.questions, { text, deeds, answer: null }] };
    }
    case "answer": {
      const answer = { participant, said: event.said };
      return { ...help, questions: help.questions.map((each) => (each.answer ? each : { ...each, answer })) };
    }
    default:
      return unreachable(event);
  }
}

function without(numbers: readonly number[], number: number): readonly number[] {
  return numbers.filter((each) => each !== number);
}
