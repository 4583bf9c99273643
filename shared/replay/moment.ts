import type { RoomView } from "../messages";
import { withTry } from "../messages";
import { unreachable } from "../quantity";
import type { ReplayEvent, ReplaySettings, ReplayTry } from "./event";

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
  /** The last "come to me"; null before the first. */
  readonly call: { readonly participant: number; readonly sequence: number; readonly view: RoomView } | null;
};

export type Look = { readonly participant: number; readonly card: string; readonly wanted: string | null };
export type MadeTry = ReplayTry & { readonly participant: number; readonly time: number };

/** A room to which nothing has happened. */
export const BEGINNING: Moment = {
  sequence: 0,
  time: 0,
  settings: {
    drawing: "everyone",
    answers: { shown: true, except: [] },
    lines: { shown: false, except: [] },
    isLocked: false,
    isEnded: false,
  },
  here: [],
  looks: [],
  tries: [],
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
    case "help":
    case "reason":
    case "step":
    case "pointers":
    case "solved":
    case "chapter":
    case "other":
      return moment;
    default:
      return unreachable(event);
  }
}

function without(numbers: readonly number[], number: number): readonly number[] {
  return numbers.filter((each) => each !== number);
}
