"use client";

import { useRouter } from "next/navigation";
import { type FormEvent, useState } from "react";
import { NAME_LENGTH } from "../../shared/messages";
import { rememberedName, rememberInside, rememberKey, rememberName } from "../access";
import { Sheet, sheetStyles } from "../paper";
import type { ReplayApi } from "./replayApi";

type Props = {
  readonly api: ReplayApi;
  readonly at: number;
  /** The moment in words. */
  readonly when: string;
  readonly close: () => void;
};

/** Makes a new room of the board as it was, and opens it. */
export default function GoOnSheet({ api, at, when, close }: Props) {
  const router = useRouter();
  const [name, setName] = useState(rememberedName);
  const [fault, setFault] = useState<string | null>(null);
  const [isMaking, setMaking] = useState(false);
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (name.trim() === "") return setFault("Type a name first; you are the instructor of the new room.");
    setMaking(true);
    const answer = await api.goOn({ at, name: name.trim() });
    setMaking(false);
    if (!answer.ok) return setFault(answer.refusal.text);
    const { room, instructorKey } = answer.value;
    rememberName(name.trim());
    rememberKey(room, instructorKey);
    rememberInside(room, true);
    router.push(`/room/${room}`);
  };
  return (
    <Sheet title="Go on from here" close={close}>
      <section>
        <p>
          A new room begins with the board as it was at {when}. The session that is played back here stays as it is.
        </p>
        <form onSubmit={submit} noValidate>
          <p>
            <label htmlFor="go-on-name">Your name, as the others see it</label>
          </p>
          <p>
            <input
              id="go-on-name"
              type="text"
              value={name}
              maxLength={NAME_LENGTH}
              autoComplete="nickname"
              aria-invalid={fault !== null}
              aria-describedby="go-on-fault"
              onChange={(event) => setName(event.target.value)}
            />
          </p>
          <p id="go-on-fault" role="alert" className={sheetStyles.problem}>
            {fault}
          </p>
          <button type="submit" disabled={isMaking}>
            Make the new room
          </button>
        </form>
      </section>
    </Sheet>
  );
}
