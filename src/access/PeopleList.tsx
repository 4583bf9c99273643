"use client";

import { type FormEvent, useState } from "react";
import { NAME_LENGTH, type Participant, type RoomAction, type RoomState } from "../../shared/messages";
import { sheetStyles } from "../paper";
import { AskOnce } from "./AskOnce";
import styles from "./access.module.css";

type Props = { readonly room: RoomState; readonly request: (action: RoomAction) => void };

/** Everybody in the room by name; whoever may change something about them finds it there. */
export function PeopleList({ room, request }: Props) {
  return (
    <section aria-label="People">
      <h3>People</h3>
      <ul className={styles.people}>
        {room.participants.map((person) => (
          <li key={person.id}>
            <Person person={person} room={room} request={request} />
          </li>
        ))}
      </ul>
    </section>
  );
}

function Person({ person, room, request }: Props & { readonly person: Participant }) {
  const [isRenaming, setRenaming] = useState(false);
  const isMe = person.id === room.you.id;
  const isTeaching = room.you.role === "instructor" && !room.isEnded;
  const hasChoice = isTeaching && room.drawing === "chosen" && person.role === "learner";
  return (
    <>
      <p className={styles.person}>
        <b>{person.name}</b> <span className={sheetStyles.soft}>{aboutPerson(person, isMe)}</span>
      </p>
      {isRenaming ? (
        <Rename
          person={person}
          save={(name) => request({ do: "renameParticipant", participant: person.id, name })}
          close={() => setRenaming(false)}
        />
      ) : (
        <div className={sheetStyles.row}>
          {hasChoice && (
            <label className={sheetStyles.choice}>
              <input
                type="checkbox"
                checked={person.mayDraw}
                onChange={(event) => request({ do: "setMayDraw", participant: person.id, may: event.target.checked })}
              />
              may draw
            </label>
          )}
          {isMe && (
            <label className={sheetStyles.choice}>
              <input
                type="checkbox"
                checked={room.you.isNameKept}
                onChange={(event) => request({ do: "keepName", keep: event.target.checked })}
              />
              replays call me by name
            </label>
          )}
          {(isMe || isTeaching) && !room.isEnded && (
            <button type="button" aria-label={`Rename ${person.name}`} onClick={() => setRenaming(true)}>
              Rename
            </button>
          )}
          {isTeaching && person.role !== "instructor" && (
            <AskOnce
              word="Remove"
              label={`Remove ${person.name}`}
              question={`${person.name} cannot come back into this room with this browser after that.`}
              yes={`Remove ${person.name}`}
              act={() => request({ do: "removeParticipant", participant: person.id })}
            />
          )}
        </div>
      )}
    </>
  );
}

function aboutPerson({ role, isHere, mayDraw }: Participant, isMe: boolean): string {
  const draws = role === "learner" && !mayDraw ? "may not draw" : null;
  return [isMe ? "you" : null, role, isHere ? "here" : "away", draws].filter((word) => word !== null).join(", ");
}

type RenameProps = {
  readonly person: Participant;
  readonly save: (name: string) => void;
  readonly close: () => void;
};

function Rename({ person, save, close }: RenameProps) {
  const [name, setName] = useState(person.name);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") return;
    save(name);
    close();
  };
  return (
    <form className={sheetStyles.row} onSubmit={submit}>
      <input
        type="text"
        aria-label={`New name of ${person.name}`}
        value={name}
        maxLength={NAME_LENGTH}
        // biome-ignore lint/a11y/noAutofocus: the field takes the place of the button that was pressed
        autoFocus
        onChange={(event) => setName(event.target.value)}
      />
      <button type="submit">Save</button>
      <button type="button" onClick={close}>
        Leave it
      </button>
    </form>
  );
}
