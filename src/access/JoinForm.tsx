"use client";

import { type FormEvent, useState } from "react";
import { NAME_LENGTH } from "../../shared/messages";
import { PlainPage, pageStyles } from "../paper";
import styles from "./access.module.css";
import { rememberedName } from "./remembered";

type Props = {
  readonly room: string;
  /** The problem that is worked on there, "" where it has no title. */
  readonly title: string;
  readonly isInstructor: boolean;
  readonly fault: string | null;
  readonly join: (as: Joining) => Promise<void>;
};

/** How somebody joins. */
export type Joining = {
  readonly name: string;
  /** Null for what the address makes of them. */
  readonly role: "learner" | "observer" | null;
  /** Whether replays may call them by the name. */
  readonly keepName: boolean;
};

/** Asks for the name that others in the room see. */
export function JoinForm({ room, title, isInstructor, fault, join }: Props) {
  const [name, setName] = useState(rememberedName);
  const [isLookingOn, setLookingOn] = useState(false);
  const [isNameKept, setNameKept] = useState(true);
  const [isAsking, setAsking] = useState(false);
  const [isUnnamed, setUnnamed] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") return setUnnamed(true);
    setAsking(true);
    await join({ name, role: isLookingOn ? "observer" : null, keepName: isNameKept });
    setAsking(false);
  };
  const said = isUnnamed ? "Type a name first." : fault;
  return (
    <PlainPage title={`Join room ${room}`}>
      {title && <p className={styles.problem}>{title}</p>}
      <form onSubmit={submit} className={styles.form} noValidate>
        <label htmlFor="name">Your name, as the others see it</label>
        <input
          id="name"
          type="text"
          value={name}
          maxLength={NAME_LENGTH}
          autoComplete="nickname"
          aria-invalid={said !== null}
          aria-describedby="name-fault"
          onChange={(event) => {
            setName(event.target.value);
            setUnnamed(false);
          }}
        />
        {isInstructor ? (
          <p>This is an instructor link: you join as an instructor of this room.</p>
        ) : (
          <label className={styles.choice}>
            <input type="checkbox" checked={isLookingOn} onChange={(event) => setLookingOn(event.target.checked)} />
            Only look on, without drawing
          </label>
        )}
        <label className={styles.choice}>
          <input type="checkbox" checked={isNameKept} onChange={(event) => setNameKept(event.target.checked)} />
          Replays of the session may call me by this name
        </label>
        <p id="name-fault" role="alert" className={styles.fault}>
          {said}
        </p>
        <button type="submit" className={pageStyles.main} disabled={isAsking}>
          Join
        </button>
      </form>
    </PlainPage>
  );
}
