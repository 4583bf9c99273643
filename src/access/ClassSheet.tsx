"use client";

import type { Drawers, RoomAction, RoomState, ShownAnswers } from "../../shared/messages";
import { Sheet, sheetStyles as styles } from "../paper";
import { AskOnce } from "./AskOnce";
import { HowTried } from "./HowTried";
import { PeopleList } from "./PeopleList";
import { TriesList } from "./TriesList";

type Props = {
  /** The room's code. */
  readonly code: string;
  readonly room: RoomState;
  readonly request: (action: RoomAction) => void;
  readonly close: () => void;
};

/** Who is in the room, and, for the instructor, what they may do and see. */
export default function ClassSheet({ code, room, request, close }: Props) {
  const isInstructor = room.you.role === "instructor";
  const mayChange = isInstructor && !room.isEnded;
  return (
    <Sheet title="Class" close={close}>
      {mayChange && <WhoMayDraw room={room} request={request} />}
      {mayChange && <WhatIsShown answers={room.answers} request={request} />}
      {mayChange && <HowTried trying={room.trying} request={request} />}
      <PeopleList room={room} request={request} />
      {isInstructor && <TriesList code={code} />}
      {mayChange && <TheRoom room={room} request={request} />}
      {room.isEnded && <p>This room has ended. Its board can still be read, and saved as a file.</p>}
    </Sheet>
  );
}

const DRAWERS: readonly { readonly who: Drawers; readonly words: string }[] = [
  { who: "everyone", words: "Everyone" },
  { who: "chosen", words: "The people chosen below" },
  { who: "instructor", words: "Only me" },
];

type PartProps = Omit<Props, "close" | "code">;

function WhoMayDraw({ room, request }: PartProps) {
  return (
    <fieldset>
      <legend>Who may draw</legend>
      <div>
        {DRAWERS.map(({ who, words }) => (
          <label key={who} className={styles.choice}>
            <input
              type="radio"
              name="drawing"
              checked={room.drawing === who}
              onChange={() => request({ do: "setDrawing", who })}
            />
            {words}
          </label>
        ))}
      </div>
    </fieldset>
  );
}

function WhatIsShown({ answers, request }: { readonly answers: ShownAnswers } & Pick<Props, "request">) {
  const isMixed = answers.except.length > 0;
  return (
    <fieldset>
      <legend>Answers</legend>
      <div>
        {[true, false].map((shown) => (
          <label key={String(shown)} className={styles.choice}>
            <input
              type="radio"
              name="answers"
              checked={!isMixed && answers.shown === shown}
              onChange={() => request({ do: "setAnswers", shown })}
            />
            {shown ? "All shown" : "All hidden until revealed"}
          </label>
        ))}
        <p className={styles.soft}>
          {isMixed ? `${mixedText(answers)} ` : ""}
          Each card of the sum can be hidden and revealed by itself. What is hidden is not sent to anybody else.
        </p>
      </div>
    </fieldset>
  );
}

function mixedText({ shown, except }: ShownAnswers): string {
  const cards = except.map((card) => (card === "total" ? "the total" : card.replaceAll("+", " and "))).join("; ");
  return shown ? `Shown but for ${cards}.` : `Hidden but for ${cards}.`;
}

function TheRoom({ room, request }: PartProps) {
  return (
    <fieldset>
      <legend>The room</legend>
      <div>
        <label className={styles.choice}>
          <input
            type="checkbox"
            checked={room.isLocked}
            onChange={(event) => request({ do: "lock", locked: event.target.checked })}
          />
          Locked: nobody new joins, and nobody but instructors draws
        </label>
        <p />
        <AskOnce
          word="End the room"
          question="Nobody can draw in this room or join it after that. Its board can still be read."
          yes="End it for everyone"
          act={() => request({ do: "end" })}
        />
      </div>
    </fieldset>
  );
}
