"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useRef, useState } from "react";
import { readRoomCode } from "../access";
import styles from "./home.module.css";

/** Goes to the room of a code, or of a link that somebody pasted. */
export function JoinByCode() {
  const router = useRouter();
  const field = useRef<HTMLInputElement>(null);
  const [fault, setFault] = useState<string | null>(null);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    const read = readRoomCode(field.current?.value ?? "");
    if (!read) return setFault("A code is six letters and digits, such as k7m2xq. Whoever started the room has it.");
    router.push(`/room/${read.room}${read.key ? `#key=${read.key}` : ""}`);
  };
  return (
    <form className={styles.row} onSubmit={submit} noValidate>
      <label htmlFor="code">The room’s code</label>
      <input
        id="code"
        type="text"
        ref={field}
        autoComplete="off"
        autoCapitalize="none"
        spellCheck={false}
        aria-invalid={fault !== null}
        aria-describedby="code-fault"
        onChange={() => setFault(null)}
      />
      <button type="submit" className={styles.main}>
        Join
      </button>
      <p id="code-fault" role="alert" className={styles.fault}>
        {fault}
      </p>
    </form>
  );
}
