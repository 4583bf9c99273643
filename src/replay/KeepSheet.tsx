"use client";

import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import type { Retention } from "../../shared/replay";
import { rememberInside } from "../access";
import { AskOnce } from "../access/AskOnce";
import { Sheet, sheetStyles as styles } from "../paper";
import { dayEnd, dayText, inDays } from "./days";
import { LastDay } from "./LastDay";
import type { ReplayApi } from "./replayApi";

type Props = { readonly room: string; readonly api: ReplayApi; readonly close: () => void };

/** Days for which a room is kept beyond the last thing that happened in it, and those of a term. */
const DAYS = 30;
const TERM_DAYS = 120;

/** How long the room and its session are kept, and the way to delete them now. */
export default function KeepSheet({ room, api, close }: Props) {
  const [retention, setRetention] = useState<Retention | null>(null);
  const [said, setSaid] = useState<string | null>(null);
  const [fault, setFault] = useState<string | null>(null);
  const router = useRouter();
  useEffect(() => {
    void api.retention().then((answer) => (answer.ok ? setRetention(answer.value) : setFault(answer.refusal.text)));
  }, [api]);
  const keep = async (wanted: Retention) => {
    const answer = await api.keep(wanted);
    if (!answer.ok) return setFault(answer.refusal.text);
    setFault(null);
    setRetention(answer.value);
    setSaid(keptText(answer.value));
  };
  const deleteNow = async () => {
    const answer = await api.deleteRoom();
    if (!answer.ok) return setFault(answer.refusal.text);
    rememberInside(room, false);
    router.push("/");
  };
  return (
    <Sheet title="Keep or delete" close={close}>
      {retention && <Choice retention={retention} keep={keep} />}
      <p role="status">{said}</p>
      <p role="alert" className={styles.problem}>
        {fault}
      </p>
      <section>
        <h3>Delete now</h3>
        <p>
          The board, its whole session, and all tries are deleted from the server, for everybody, at once. Nothing
          brings them back; a saved session file does not lie on the server and stays yours.
        </p>
        <AskOnce
          word="Delete the room"
          question={`Room ${room} and its session are deleted for everybody, for good.`}
          yes="Delete it for good"
          act={() => void deleteNow()}
        />
      </section>
    </Sheet>
  );
}

type ChoiceProps = { readonly retention: Retention; readonly keep: (retention: Retention) => Promise<void> };

function Choice({ retention, keep }: ChoiceProps) {
  const [day, setDay] = useState(() =>
    retention.keep === "until" ? inDays(retention.until, 0) : inDays(Date.now(), TERM_DAYS),
  );
  const until = dayEnd(day);
  return (
    <fieldset>
      <legend>The room and its session are kept</legend>
      <div>
        <Option word="for good" isChosen={retention.keep === "forever"} choose={() => keep({ keep: "forever" })} />
        <Option
          word={`${DAYS} days beyond the last thing that happens in it`}
          isChosen={retention.keep === "days"}
          choose={() => keep({ keep: "days", days: DAYS })}
        />
        <Option
          word="until the end of a day"
          isChosen={retention.keep === "until"}
          choose={() => until !== null && keep({ keep: "until", until })}
        />
        <LastDay
          day={day}
          setDay={(next) => {
            setDay(next);
            const end = dayEnd(next);
            if (retention.keep === "until" && end !== null) void keep({ keep: "until", until: end });
          }}
        />
      </div>
    </fieldset>
  );
}

type OptionProps = { readonly word: string; readonly isChosen: boolean; readonly choose: () => void };

function Option({ word, isChosen, choose }: OptionProps) {
  return (
    <label className={styles.choice}>
      <input type="radio" name="retention" checked={isChosen} onChange={choose} />
      {word}
    </label>
  );
}

function keptText(retention: Retention): string {
  switch (retention.keep) {
    case "forever":
      return "The room is kept for good.";
    case "days":
      return `The room is deleted ${retention.days} days after the last thing that happens in it.`;
    case "until":
      return `The room is deleted after ${dayText(retention.until)}.`;
  }
}
