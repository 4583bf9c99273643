"use client";

import { useEffect, useId, useState } from "react";
import type { ReplayLink } from "../../shared/replay";
import { AskOnce } from "../access/AskOnce";
import { CopyButton } from "../access/CopyButton";
import { Sheet, sheetStyles as styles } from "../paper";
import { dayEnd, dayText, inDays } from "./days";
import { LastDay } from "./LastDay";
import { sharedLink } from "./replayAddress";
import type { ReplayApi } from "./replayApi";
import own from "./sharing.module.css";

type Props = { readonly room: string; readonly api: ReplayApi; readonly close: () => void };

/** How many days a new link works, unless another day is chosen. */
const USUAL_DAYS = 30;

/** Links by which others see the session: made, listed and taken back. */
export default function ShareSheet({ room, api, close }: Props) {
  const [links, setLinks] = useState<readonly ReplayLink[]>([]);
  const [fault, setFault] = useState<string | null>(null);
  const [made, setMade] = useState<string | null>(null);
  useEffect(() => {
    void api.links().then((answer) => (answer.ok ? setLinks(answer.value) : setFault(answer.refusal.text)));
  }, [api]);
  const make = async (until: number | null) => {
    const answer = await api.makeLink({ until });
    if (!answer.ok) return setFault(answer.refusal.text);
    setFault(null);
    setLinks((before) => [answer.value.link, ...before]);
    setMade(sharedLink(room, answer.value.secret, window.location.href));
  };
  const revoke = async (id: number) => {
    const answer = await api.revokeLink(id);
    if (!answer.ok) return setFault(answer.refusal.text);
    setFault(null);
    setLinks(answer.value);
  };
  return (
    <Sheet title="Share the replay" close={close}>
      <MakeLink make={make} made={made} />
      <p role="alert" className={styles.problem}>
        {fault}
      </p>
      {links.length > 0 && <LinkList links={links} revoke={revoke} />}
    </Sheet>
  );
}

type MakeProps = { readonly make: (until: number | null) => Promise<void>; readonly made: string | null };

function MakeLink({ make, made }: MakeProps) {
  const [isForever, setForever] = useState(false);
  const [day, setDay] = useState(() => inDays(Date.now(), USUAL_DAYS));
  const until = isForever ? null : dayEnd(day);
  return (
    <section>
      <h3>A new link</h3>
      <p>
        Whoever has it sees what learners saw, names as they may be told, and can change nothing. It can be taken back
        at any time.
      </p>
      <fieldset>
        <legend>It works</legend>
        <div>
          <label className={styles.choice}>
            <input type="radio" name="until" checked={!isForever} onChange={() => setForever(false)} />
            until the end of a day
          </label>
          {!isForever && <LastDay day={day} setDay={setDay} />}
          <label className={styles.choice}>
            <input type="radio" name="until" checked={isForever} onChange={() => setForever(true)} />
            until it is taken back
          </label>
        </div>
      </fieldset>
      <button
        type="button"
        disabled={!isForever && until === null}
        onClick={() => (isForever || until !== null) && make(until)}
      >
        Make a link
      </button>
      {made !== null && <NewLink key={made} link={made} />}
    </section>
  );
}

function NewLink({ link }: { readonly link: string }) {
  const id = useId();
  return (
    <div className={styles.asking} role="status">
      <p>
        <label htmlFor={id}>The new link. It is shown this once: copy it now.</label>
      </p>
      <p>
        <input
          id={id}
          type="text"
          readOnly
          value={link}
          className={own.link}
          onFocus={(event) => event.target.select()}
        />
      </p>
      <div className={styles.row}>
        <CopyButton word="Copy the link" text={link} />
      </div>
    </div>
  );
}

type ListProps = { readonly links: readonly ReplayLink[]; readonly revoke: (id: number) => Promise<void> };

function LinkList({ links, revoke }: ListProps) {
  return (
    <section aria-label="Links">
      <h3>Links</h3>
      <ul className={own.links}>
        {links.map((link) => (
          <li key={link.id}>
            <p>
              Link of {dayText(link.madeAt)} <span className={styles.soft}>{standText(link, Date.now())}</span>
            </p>
            {isWorking(link, Date.now()) && (
              <AskOnce
                word="Take back"
                label={`Take back link ${link.id}`}
                question="Whoever has it sees nothing of the session any more."
                yes="Take it back"
                act={() => void revoke(link.id)}
              />
            )}
          </li>
        ))}
      </ul>
    </section>
  );
}

function isWorking({ until, isRevoked }: ReplayLink, now: number): boolean {
  return !isRevoked && (until === null || until > now);
}

function standText(link: ReplayLink, now: number): string {
  if (link.isRevoked) return "taken back";
  if (link.until === null) return "works until it is taken back";
  return isWorking(link, now) ? `works until ${dayText(link.until)}` : `ended on ${dayText(link.until)}`;
}
