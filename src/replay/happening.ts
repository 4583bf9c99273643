import { type MeantStep, type MeantTry, TOTAL_CARD } from "../../shared/messages";
import { unreachable } from "../../shared/quantity";
import type { HelpTold, ReplayEvent, ReplayStep, ReplayTry, SettingChange } from "../../shared/replay";
import { NEITHER } from "../sum";
import type { SessionLog } from "./sessionLog";

/** Entries that are looked through for the last thing that happened. */
const LOOKED_THROUGH = 200;

/** What happened last before a moment, in words; "" where nothing did that can be told. */
export function happeningAt(
  log: Pick<SessionLog, "event">,
  at: number,
  nameOf: (participant: number) => string,
): string {
  for (let sequence = at; sequence > Math.max(0, at - LOOKED_THROUGH); sequence--) {
    const event = log.event(sequence);
    const text = event && happeningText(event, nameOf(event.participant));
    if (text) return text;
  }
  return "";
}

/** Null for what is seen by itself, such as pointers, and for what this page can't tell. */
export function happeningText(event: ReplayEvent, name: string): string | null {
  switch (event.kind) {
    case "update":
      return `${name} works on the board`;
    case "try":
      return `${name} tries ${event.made.text} for ${event.made.wanted}, ${cardText(event.made.card)}${mistakeText(event.made)}`;
    case "step":
      return `${name} ${stepText(event.made)}`;
    case "help":
    case "stepHelp":
    case "reason":
    case "stepReason":
    case "question":
    case "answer":
      return `${name} ${saidText(event)}`;
    case "join":
      return `${name} comes in`;
    case "leave":
      return `${name} leaves`;
    case "call":
      return `${name} calls everyone to a view`;
    case "look":
      return `${name} opens ${cardText(event.card)}`;
    case "solved":
      return event.wanted.length === 0 ? null : `The circuit gives ${event.wanted.join(", ")}`;
    case "setting":
      return settingText(event.change, name);
    case "pointers":
    case "chapter":
    case "other":
      return null;
    default:
      return unreachable(event);
  }
}

/** What probably led to a value, for those who are told; "" for all others. */
export function mistakeText({ mistake }: ReplayTry): string {
  return mistake === null ? "" : `. One way there: ${mistake}`;
}

/** What somebody made of a step on the way to a value, without who it was. */
export function stepText(made: ReplayStep): string {
  switch (made.step) {
    case "zeroing":
      return `says what each source becomes for ${cardText(made.card)}: ${made.outcome === "right" ? "right" : "not right yet"}`;
    case "line":
      return `writes ${made.text} for ${cardText(made.card)}`;
    default:
      return unreachable(made);
  }
}

/** What somebody was told, or said, about what was tried, without who it was. */
export function saidText(event: HelpTold): string {
  switch (event.kind) {
    case "help":
    case "stepHelp":
      return `asks for help with ${triedText(event)}: “${event.text}”`;
    case "reason":
    case "stepReason":
      return `says why ${triedText(event)} was not right: “${event.text}”`;
    case "question":
      return `is asked about ${triedText(event)}: “${event.text}”`;
    case "answer": {
      const said = event.said === null ? "" : `: “${event.said.deed ?? NEITHER}”`;
      return `answers the question about ${triedText(event)}${said}`;
    }
    default:
      return unreachable(event);
  }
}

function triedText(about: MeantTry | MeantStep): string {
  if (!("step" in about)) return cardText(about.card);
  return about.step === "zeroing"
    ? `the zeroing for ${cardText(about.card)}`
    : `line ${about.count} for ${cardText(about.card)}`;
}

function settingText({ do: what, card, wanted, shown }: SettingChange, name: string): string | null {
  switch (what) {
    case "admit":
      return null;
    case "setShown":
      return `${name} ${shown ? "shows" : "hides"} the answer of ${cardText(card ?? "")}`;
    case "setAnswers":
      return `${name} ${shown ? "shows" : "hides"} all answers`;
    case "showLines":
      return `${name} shows lines of ${wanted}, ${cardText(card ?? "")}`;
    case "showAllLines":
      return `${name} ${shown ? "shows" : "hides"} all lines`;
    case "setTrying":
      return `${name} changes how tries are judged`;
    case "lock":
      return `${name} locks or opens the room`;
    case "end":
      return `${name} ends the room`;
    default:
      return `${name} changes a setting of the room`;
  }
}

/** A card as the sum line calls it, within a sentence. */
export function cardText(card: string): string {
  return card === TOTAL_CARD
    ? "all sources"
    : `${card.replaceAll("+", " and ")}${card.includes("+") ? " together" : " alone"}`;
}
