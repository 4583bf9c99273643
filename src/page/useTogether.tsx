"use client";

import { type ReactNode, useEffect, useMemo, useState } from "react";
import { type EntryId, entryId, type InkColour, isSeenOn } from "../../shared/board";
import type { Participant } from "../../shared/messages";
import { type BoardTools, entryBox, type PanePlace, SELECT, STRETCH, WIRE } from "../board";
import { drawInkNow, InkSheet, type InkTool, inkShade, inkSvg, useInkPaintings } from "../ink";
import {
  ComeToMe,
  Cursors,
  Lookers,
  PeopleHere,
  type Person,
  PointerReport,
  Selections,
  usePeople,
  usePresenceSender,
} from "../people";
import type { RoomConnection, RoomState } from "../room";
import type { PaperSettings } from "../settings";
import { TOTAL } from "../sum";
import type { useRoomView } from "./useRoomView";

type Input = {
  readonly state: RoomState;
  readonly connection: RoomConnection;
  readonly view: ReturnType<typeof useRoomView>;
  readonly tools: BoardTools;
  readonly newId: () => EntryId;
  readonly settings: PaperSettings;
};

/** The ink tool in hand, null while the board's own tools are. */
export type InkInHand = {
  readonly tool: InkTool | null;
  readonly setTool: (tool: InkTool | null) => void;
  readonly mayDraw: boolean;
};

const NOBODY: readonly Participant[] = [];

/** What people do with one another on the page of a room: who is here and where, ink, and calls. */
export function useTogether({ state, connection, view, tools, newId, settings }: Input) {
  const { paper, annotations } = settings;
  const { awareness, board, circuit } = state;
  const people = usePeople(awareness, state.room?.you.id ?? null, state.room?.participants ?? NOBODY);
  const sender = usePresenceSender(awareness);
  const [tool, setTool] = useInkInHand(tools);
  const [colour, setColour] = useState<InkColour>("brown");
  const isInstructor = state.room?.you.role === "instructor";
  const card = view.card?.key ?? TOTAL;
  const wanted = view.focusEntry;
  const acting = view.card?.acting ?? null;
  const openSources = useMemo(
    () => (acting ? [...acting].flatMap((name) => circuit.entryOf.get(name) ?? []) : null),
    [acting, circuit],
  );
  const marks = useMemo(() => state.ink.marks.filter((mark) => isSeenOn(mark, openSources)), [state.ink, openSources]);
  const paintings = useInkPaintings(marks, paper);
  const printLayers = () => (annotations === "with" ? inkSvg(drawInkNow(marks, "light"), "light") : null);
  useEffect(() => {
    sender.show({ card, wanted, selection: [...tools.selection] });
  }, [sender, card, wanted, tools.selection]);
  useEffect(() => sender.show({ isPointing: tool === "point" }), [sender, tool]);

  const others = people.filter((person) => !person.isYou);
  const shade = (person: Person) => inkShade(person.mark.colour, paper);
  const cardTitle = (key: string) => {
    const title = view.cards.find((each) => each.key === key && each.acting)?.title;
    return title ?? "all sources";
  };
  const lookersAt = (key: string): ReactNode => (
    <Lookers people={others.filter((person) => person.card === key)} shade={shade} />
  );
  const here = <PeopleHere people={people} cardTitle={cardTitle} shade={shade} />;
  const overlay = (place: PanePlace): ReactNode => (
    <>
      <PointerReport view={place.viewport.view} show={sender.show} />
      <InkSheet
        {...{ tool, setTool, place, colour, setColour, marks, paper, newId, people, awareness, openSources }}
        leave={() => setTool(null)}
        card={openSources ?? []}
        addend={acting ? (view.card?.title ?? null) : null}
        command={connection.command}
        show={sender.show}
      />
      <Selections
        people={others.filter((person) => person.card === card)}
        boxOf={(entry) => entryBox(entry, board, view.figure)}
        view={place.viewport.view}
        shade={shade}
      />
      <Cursors
        awareness={awareness}
        people={others}
        view={place.viewport.view}
        width={place.size.width}
        card={card}
        cardTitle={cardTitle}
        shade={shade}
      />
      <ComeToMe
        place={place}
        looking={{ card, wanted }}
        look={(to) => {
          view.setCard(to.card);
          if (to.wanted) view.setFocusEntry(entryId(to.wanted));
        }}
        call={state.call}
        callAll={isInstructor ? (to) => connection.request({ do: "comeToMe", view: to }) : null}
        isTopTaken={tool !== null}
      />
    </>
  );
  const ink: InkInHand = { tool, setTool, mayDraw: state.room?.you.mayDraw ?? true };
  return { ink, paintings, marks, openSources, printLayers, hint: tool ? "" : null, here, lookersAt, overlay };
}

/** The ink tool in hand: taken up it puts down what was about to be placed or picked, and the other way about. */
function useInkInHand(tools: BoardTools) {
  const [tool, setTool] = useState<InkTool | null>(null);
  const isForOneUse = ![STRETCH, WIRE, SELECT].some((lasting) => lasting.do === tools.tool.do);
  useEffect(() => {
    if (isForOneUse) setTool(null);
  }, [isForOneUse]);
  const take = (next: InkTool | null) => {
    if (next) {
      tools.putDown();
      tools.choose(null);
    }
    setTool(next);
  };
  return [tool, take] as const;
}
