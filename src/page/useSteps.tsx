"use client";

import type { ReactNode } from "react";
import type { LineTry, ZeroingTry } from "../../shared/messages";
import { tidyCard } from "../../shared/messages";
import type { PanePlace } from "../board";
import type { RoomConnection, RoomState } from "../room";
import {
  LinesPlace,
  type PlacedSource,
  ZeroingBarPlace,
  ZeroingLayerPlace,
  ZeroingPlace,
  zeroingQuestion,
} from "../steps";
import type { LitStore } from "../working";
import type { useRoomView } from "./useRoomView";
import { useStepHelp } from "./useStepHelp";
import type { Becomes, Zeroing } from "./useZeroing";

type Light = Pick<LitStore, "light">;

/** What is checked on the way to the open card's value, on the page of a room. */
export type Steps = {
  /** On the drawing. */
  readonly overlay: (place: Pick<PanePlace, "viewport" | "size">) => ReactNode;
  /** Beside the working: above the field for the value, and beneath it. */
  readonly zeroing: (light: Light, sketch: ReactNode) => ReactNode;
  readonly lines: (light: Light, sketch: ReactNode) => ReactNode;
};

/** `you` is the id of this page's person, null for somebody who is in no room. */
export function useSteps(
  state: Pick<RoomState, "room" | "circuit" | "link"> & { readonly steps: Pick<RoomState["steps"], "lines"> },
  connection: Pick<RoomConnection, "askAboutTry">,
  view: ReturnType<typeof useRoomView>,
  zeroing: Zeroing,
  you: string | null,
): Steps {
  const helpOf = useStepHelp(state, connection);
  const { card, figure } = view;
  const { room, circuit, steps } = state;
  const becomes = card && zeroing.becomesOn(card);
  const last = card && zeroing.lastOf(card);
  const { acts } = zeroing;
  const nameOf = (made: LineTry | ZeroingTry) =>
    room?.participants.find(({ id }) => id === made.participant)?.name ?? made.name;
  const isYou = (made: LineTry | ZeroingTry) => made.participant === you;
  const checked = becomes && last ? isSame(becomes, last) : false;
  const zeroingHelp = card && last ? helpOf({ step: "zeroing", card: last.card, count: last.count }, last.help) : null;

  const overlay: Steps["overlay"] = (place) => {
    if (!card || !becomes) return null;
    const sources = [...becomes].flatMap(([name, decision]): PlacedSource[] => {
      const entry = circuit.entryOf.get(name);
      const box = entry && figure.bodies.get(entry);
      return box ? [{ name, box, decision }] : [];
    });
    return (
      <>
        <ZeroingLayerPlace
          key={`sources ${card.key}`}
          place={place}
          sources={sources}
          decide={acts && ((source, decision) => acts.decide(card, source, decision))}
        />
        <ZeroingBarPlace
          title={card.title}
          last={last}
          isChecked={checked}
          refusal={zeroing.refusal}
          check={acts && (() => acts.check(card))}
          help={zeroingHelp}
        />
      </>
    );
  };

  const zeroingPanel = ({ light }: Light, sketch: ReactNode): ReactNode => {
    // Where nothing is asked any more, what was checked stays to be read.
    if (!card?.acting || (!becomes && last?.outcome !== "right")) return null;
    if (!becomes && !zeroing.isAsked) return null;
    return (
      <ZeroingPlace
        key={`zeroing ${card.key}`}
        title={card.title}
        question={becomes && zeroingQuestion(card.acting)}
        becomes={becomes ?? NOTHING}
        decide={acts && ((source, decision) => acts.decide(card, source, decision))}
        check={acts && (() => acts.check(card))}
        last={last}
        isChecked={checked || !becomes}
        who={last ? (isYou(last) ? "you" : nameOf(last)) : ""}
        hasCount={room?.you.role === "instructor"}
        refusal={zeroing.refusal}
        help={zeroingHelp}
        light={light}
        sketch={sketch}
      />
    );
  };

  const linesPanel = ({ light }: Light, sketch: ReactNode): ReactNode => {
    if (!card) return null;
    const own = steps.lines.filter((line) => line.card === tidyCard(card.key));
    if (!acts && own.length === 0) return null;
    const shown = own.map((line) => ({
      line,
      who: isYou(line) ? "You" : nameOf(line),
      help: helpOf({ step: "line", card: line.card, count: line.count }, line.help),
    }));
    const write = (text: string) => connection.askAboutTry({ do: "tryLine", card: card.key, text });
    return (
      <LinesPlace
        key={`lines ${card.key}`}
        title={card.title}
        lines={shown}
        write={acts && write}
        isReached={state.link === "joined"}
        light={light}
        sketch={sketch}
      />
    );
  };

  return { overlay, zeroing: zeroingPanel, lines: linesPanel };
}

const NOTHING: Becomes = new Map();

/** Whether what is decided is what was checked. */
function isSame(becomes: Becomes, { decisions }: ZeroingTry): boolean {
  return [...becomes].every(([source, decision]) => (decisions[source] ?? "kept") === decision);
}
