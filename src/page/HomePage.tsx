"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { isRoomName, newRoomName, ROOM_NAME_RULE } from "../room/roomName";
import styles from "./home.module.css";
import { Wordmark } from "./Wordmark";

type Props = { readonly examples: readonly { readonly id: string; readonly title: string }[] };

/** The way in: a blank page, an example, or a room that somebody else has opened. */
export function HomePage({ examples }: Props) {
  const router = useRouter();
  const open = (query: string) => router.push(`/room/${newRoomName(Math.random)}${query}`);
  return (
    <main className={styles.home}>
      <h1>
        <Wordmark />
      </h1>
      <p className={styles.lead}>
        A shared board for linear circuits, solved one source at a time. Draw the circuit once; each source’s own
        circuit, its part of the answer and the sum stand beside it, in everyone’s browser.
      </p>
      <section>
        <h2>Begin</h2>
        <button type="button" className={styles.main} onClick={() => open("")}>
          Start with a blank page
        </button>
      </section>
      <section>
        <h2>Join a room</h2>
        <JoinForm join={(room) => router.push(`/room/${room}`)} />
      </section>
      <section className={styles.examples}>
        <h2>Open an example</h2>
        <ul>
          {examples.map(({ id, title }) => (
            <li key={id}>
              <button type="button" onClick={() => open(`?example=${id}`)}>
                {title}
              </button>
            </li>
          ))}
        </ul>
      </section>
      <p className={styles.caution}>
        Addend is for analysis on paper. Its numbers do not make a circuit safe to build or to touch; local codes and
        licensed practice decide that.
      </p>
    </main>
  );
}

function JoinForm({ join }: { readonly join: (room: string) => void }) {
  const [text, setText] = useState("");
  const [fault, setFault] = useState<string | null>(null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const room = text.trim();
    if (isRoomName(room)) join(room);
    else setFault(ROOM_NAME_RULE);
  };
  return (
    <form className={styles.join} onSubmit={submit}>
      <label htmlFor="room">The room’s name</label>
      <input
        id="room"
        value={text}
        autoComplete="off"
        spellCheck={false}
        placeholder="demo"
        aria-invalid={fault !== null}
        aria-describedby={fault ? "room-fault" : undefined}
        onChange={(event) => {
          setText(event.target.value);
          setFault(null);
        }}
      />
      <button type="submit">Join</button>
      {fault && (
        <p id="room-fault" role="alert" className={styles.fault}>
          {fault}
        </p>
      )}
    </form>
  );
}
