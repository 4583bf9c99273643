"use client";

import { useId } from "react";
import { Sheet, sheetStyles } from "../paper";
import styles from "./access.module.css";
import { CopyButton } from "./CopyButton";
import { rememberedKey } from "./remembered";
import { instructorLink, learnerLink } from "./roomLinks";

type Props = { readonly room: string; readonly isInstructor: boolean; readonly close: () => void };

/** How others come into the room. */
export default function InviteSheet({ room, isInstructor, close }: Props) {
  const link = learnerLink(room, window.location.href);
  return (
    <Sheet title="Invite" close={close}>
      <section>
        <h3>The room’s code</h3>
        <p className={styles.code}>{room}</p>
        <div className={sheetStyles.row}>
          <CopyButton word="Copy the code" text={room} />
        </div>
        <p className={styles.under}>Typed on the first page of {window.location.host}.</p>
      </section>
      <section>
        <h3>The link for learners</h3>
        <LinkField label="Link for learners" link={link} />
        <div className={sheetStyles.row}>
          <CopyButton word="Copy the link" text={link} />
        </div>
      </section>
      {isInstructor && <InstructorLink room={room} />}
    </Sheet>
  );
}

function InstructorLink({ room }: Pick<Props, "room">) {
  const key = rememberedKey(room);
  return (
    <section>
      <h3>The link for instructors</h3>
      {key === null ? (
        <p>
          This browser was not told it. It stands on the “Invite” sheet of the browser that the room was made in, and in
          the address that made you an instructor.
        </p>
      ) : (
        <>
          <p className={sheetStyles.asking}>
            Whoever has this link is an instructor of this room: they decide who draws, see hidden answers, and can end
            it. Keep it for yourself and for those who teach with you.
          </p>
          <LinkField label="Link for instructors" link={instructorLink(room, key, window.location.href)} />
          <div className={sheetStyles.row}>
            <CopyButton word="Copy the instructor link" text={instructorLink(room, key, window.location.href)} />
          </div>
        </>
      )}
    </section>
  );
}

function LinkField({ label, link }: { readonly label: string; readonly link: string }) {
  const id = useId();
  return (
    <p>
      <label htmlFor={id} className={styles.unseen}>
        {label}
      </label>
      <input
        id={id}
        type="text"
        className={styles.link}
        readOnly
        value={link}
        onFocus={(event) => event.target.select()}
      />
    </p>
  );
}
