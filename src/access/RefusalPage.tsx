import Link from "next/link";
import { PlainPage, pageStyles as styles } from "../paper";
import type { Refusal } from "./api";

type Props = {
  readonly room: string;
  readonly refusal: Refusal;
  readonly again: () => void;
  /** Another place to go on from than the first page. */
  readonly to?: { readonly path: string; readonly words: string };
};

/** Why a room is not open, and what can be done. */
export function RefusalPage({ room, refusal, again, to = FIRST_PAGE }: Props) {
  return (
    <PlainPage title={titleOf(refusal.code, room)}>
      <p>{refusal.text}</p>
      <p className={styles.row}>
        <button type="button" className={styles.main} onClick={again}>
          Try again
        </button>
        <Link href={to.path}>{to.words}</Link>
      </p>
    </PlainPage>
  );
}

const FIRST_PAGE = { path: "/", words: "To the first page" };

function titleOf(code: Refusal["code"], room: string): string {
  switch (code) {
    case "unknownRoom":
    case "notFound":
      return `There is no room ${room}`;
    case "removed":
      return `You are not in room ${room} any more`;
    case "ended":
      return `Room ${room} has ended`;
    case "locked":
      return `Room ${room} is locked`;
    case "roomFull":
      return `Room ${room} is full`;
    case "notYours":
      return "This is somebody else’s own try";
    case "notLearner":
      return "No try of your own here";
    case "wrongKey":
      return "This instructor link does not open the room";
    case "unreachable":
    case "unavailable":
      return "Not connected";
    case "notMember":
      return `You have not joined room ${room}`;
    case "notAllowed":
      return "This is an instructor's to do";
    case "wrongLink":
      return "This link opens no replay";
    case "linkExpired":
    case "linkRevoked":
      return "This link no longer opens the replay";
    case "unknownMoment":
      return "There is no such moment";
    case "badArchive":
    case "badRequest":
    case "badFile":
    case "unknownExample":
    case "otherOrigin":
    case "tooLarge":
    case "tooMany":
      return `Room ${room} cannot be joined now`;
  }
}
