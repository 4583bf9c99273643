"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useEffect, useRef, useState } from "react";
import { NAME_LENGTH, type RoomCreated, type RoomStart } from "../../shared/messages";
import {
  type Answer,
  createRoom,
  importSession,
  rememberedName,
  rememberInside,
  rememberKey,
  rememberName,
} from "../access";
import { CircuitFileStart } from "./CircuitFileStart";
import styles from "./home.module.css";
import { SavedSessionStart } from "./SavedSessionStart";

export type ExampleChoice = {
  readonly id: string;
  readonly title: string;
  /** A small drawing of its circuit. */
  readonly drawing: ReactNode;
};

type Props = { readonly examples: readonly ExampleChoice[] };

/** Starts a room: with a blank page, a circuit file, or one of our example problems. Its maker is the instructor. */
export function StartRoom({ examples }: Props) {
  const { field, fault, mend, isStarting, start, bringIn } = useStart();
  return (
    <>
      <form
        onSubmit={(event) => {
          event.preventDefault();
          void start({ kind: "blank" });
        }}
      >
        <div className={styles.row}>
          <label htmlFor="own-name">Your name, as the others see it</label>
          <input
            id="own-name"
            ref={field}
            type="text"
            maxLength={NAME_LENGTH}
            autoComplete="nickname"
            aria-invalid={fault !== null}
            aria-describedby="start-fault"
            onChange={mend}
          />
          <p id="start-fault" role="alert" className={styles.fault}>
            {fault}
          </p>
        </div>
        <div className={styles.row}>
          <button type="submit" className={styles.main} disabled={isStarting}>
            Start with a blank page
          </button>
          <CircuitFileStart start={start} isStarting={isStarting} />
          <SavedSessionStart bringIn={bringIn} isStarting={isStarting} />
        </div>
      </form>
      <h3>With an example problem</h3>
      <ul className={styles.examples}>
        {examples.map(({ id, title, drawing }) => (
          <li key={id}>
            <button type="button" disabled={isStarting} onClick={() => start({ kind: "example", id })}>
              {drawing}
              <span>{title}</span>
            </button>
          </li>
        ))}
      </ul>
    </>
  );
}

function useStart() {
  const router = useRouter();
  // The field keeps its own text: what is typed before the page's script has come is not lost.
  const field = useRef<HTMLInputElement>(null);
  const [fault, setFault] = useState<string | null>(null);
  const [isStarting, setStarting] = useState(false);
  useEffect(() => {
    if (field.current?.value === "") field.current.value = rememberedName();
  }, []);
  const make = async (asked: (name: string) => Promise<Answer<RoomCreated>>, then: string) => {
    const name = field.current?.value.trim() ?? "";
    if (name === "") {
      setFault("Type your name first; you are the instructor of the room.");
      return field.current?.focus();
    }
    rememberName(name);
    setStarting(true);
    const answer = await asked(name);
    if (answer.ok) {
      const { room, instructorKey } = answer.value;
      rememberKey(room, instructorKey);
      rememberInside(room, true);
      return router.push(`/room/${room}${then}`);
    }
    setStarting(false);
    setFault(answer.refusal.text);
  };
  const start = (from: RoomStart) => make((name) => createRoom({ name, from }), "");
  const bringIn = (file: File) => make((name) => importSession(file, name), "/replay");
  return { field, fault, mend: () => setFault(null), isStarting, start, bringIn };
}
