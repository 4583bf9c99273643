"use client";

import type { ReactNode } from "react";
import type { EntryId } from "../../shared/board";
import { isShown } from "../../shared/messages";
import type { RoomConnection, RoomState } from "../room";
import { type Groups, type Showing, type SumCard, SumLine, TOTAL } from "../sum";
import { sumNote } from "./texts";
import type { useRoomView } from "./useRoomView";
import type { RoomTries } from "./useTries";

type Props = {
  readonly state: RoomState;
  readonly connection: RoomConnection;
  readonly view: ReturnType<typeof useRoomView>;
  readonly newId: () => EntryId;
  /** Who of the others looks at a card. */
  readonly lookersAt: (card: string) => ReactNode;
  readonly tries: RoomTries;
};

/** The sum line with what this page's person may do about it. */
export function RoomSum({ state, connection, view, newId, lookersAt, tries }: Props) {
  const { board, circuit } = state;
  return (
    <SumLine
      wanted={view.report?.wanted ?? []}
      focus={view.focus}
      setFocus={view.setFocus}
      cards={view.cards}
      figureOf={view.figureOf}
      chosen={view.card?.key ?? TOTAL}
      choose={view.setCard}
      lookersAt={lookersAt}
      note={sumNote(board, circuit, view.report, view.wanted, state.link !== "lost")}
      showingOf={showing(state, connection)}
      triesOf={tries.triesOf}
      handing={tries.handing}
      groups={groupsFor(state, connection, newId)}
    />
  );
}

function showing({ room }: RoomState, { request }: RoomConnection): ((card: SumCard) => Showing) | null {
  if (room?.you.role !== "instructor" || room.isEnded) return null;
  return ({ key }) => ({
    isShown: isShown(room.answers, key),
    setShown: (shown) => request({ do: "setShown", card: key, shown }),
  });
}

function groupsFor({ room, board }: RoomState, { command }: RoomConnection, newId: () => EntryId): Groups | null {
  if (room && !room.you.mayDraw) return null;
  return {
    add: (names) => {
      const sources = board.parts.filter((part) => names.includes(part.name)).map((part) => part.id);
      command({ do: "addGroup", id: newId(), sources });
    },
    remove: (id) => command({ do: "removeGroup", id }),
  };
}
