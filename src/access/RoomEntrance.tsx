"use client";

import { useRouter } from "next/navigation";
import { type ReactNode, useCallback, useEffect, useState } from "react";
import styles from "./access.module.css";
import { glanceAtRoom, joinRoom, type Refusal } from "./api";
import { JoinForm, type Joining } from "./JoinForm";
import { RefusalPage } from "./RefusalPage";
import { rememberedKey, rememberInside, rememberKey, rememberName, wasInside } from "./remembered";
import { keyInFragment, tryPath } from "./roomLinks";

/** Where somebody who opens a room's address stands. */
type Stand =
  | { readonly at: "looking" }
  | { readonly at: "door"; readonly title: string; readonly fault: string | null }
  | { readonly at: "inside" }
  | { readonly at: "refused"; readonly refusal: Refusal };

type Props = {
  readonly room: string;
  /** The room, for those who are in it. `lookAgain` asks once more whether they still are. */
  readonly children: (lookAgain: () => void) => ReactNode;
};

/** Lets members into the room, asks others for their name, and says why a room is not open. */
export function RoomEntrance({ room, children }: Props) {
  const { stand, key, look, join } = useEntrance(room);
  switch (stand.at) {
    case "looking":
      return <p className={styles.looking}>Joining the room …</p>;
    case "door":
      return <JoinForm room={room} title={stand.title} isInstructor={key !== null} fault={stand.fault} join={join} />;
    case "refused":
      return <RefusalPage room={room} refusal={stand.refusal} again={look} />;
    case "inside":
      return children(look);
  }
}

/** Somebody who is in the room already has said before whether their name is kept. */
type EnteringAs = Omit<Joining, "keepName"> & { readonly keepName: boolean | null };

function useEntrance(room: string) {
  const [stand, setStand] = useState<Stand>({ at: "looking" });
  const [key, setKey] = useState<string | null>(null);
  const router = useRouter();
  const enter = useCallback(
    async ({ name, role, keepName }: EnteringAs, withKey: string | null) => {
      const answer = await joinRoom(room, {
        name,
        ...(withKey ? { key: withKey } : {}),
        ...(role ? { as: role } : {}),
        ...(keepName === null ? {} : { keepName }),
      });
      if (answer.ok) {
        if (withKey) rememberKey(room, withKey);
        rememberInside(room, true);
        hideKey();
        setStand({ at: "inside" });
      } else setStand((before) => afterRefusal(before, answer.refusal));
    },
    [room],
  );
  const look = useCallback(async () => {
    const brought = keyInFragment(window.location.hash);
    setKey(brought);
    const glance = await glanceAtRoom(room);
    if (!glance.ok) {
      // Without the server, a room is what this browser has kept of it.
      const isKept = glance.refusal.code === "unreachable" && wasInside(room);
      return setStand(isKept ? { at: "inside" } : { at: "refused", refusal: glance.refusal });
    }
    const { exists, isEnded, isLocked, you, title, tryOf } = glance.value;
    if (tryOf) return router.replace(tryPath(tryOf, room));
    if (!exists) return setStand({ at: "refused", refusal: UNKNOWN });
    if (isEnded && !you) return setStand({ at: "refused", refusal: ENDED });
    if (isLocked && !you && !brought) return setStand({ at: "refused", refusal: LOCKED });
    rememberInside(room, you !== null);
    if (you && (you.role === "instructor" || !brought)) {
      if (brought && rememberedKey(room) === null) rememberKey(room, brought);
      hideKey();
      return setStand({ at: "inside" });
    }
    if (you) return enter({ name: you.name, role: null, keepName: null }, brought);
    setStand({ at: "door", title, fault: null });
  }, [room, enter, router]);
  // The same function from one render to the next: the room's page asks again by it whenever its line fails, and an
  // answer renders this page anew.
  const lookAgain = useCallback(() => void look(), [look]);
  useEffect(lookAgain, [lookAgain]);
  const join = async (as: Joining) => {
    rememberName(as.name.trim());
    await enter(as, key);
  };
  return { stand, key, look: lookAgain, join };
}

const UNKNOWN: Refusal = {
  code: "unknownRoom",
  text: "No room has this code. Look at it again: it has six letters and digits, and whoever started the room has it.",
};
const ENDED: Refusal = { code: "ended", text: "The instructor has ended this room, so nobody can join it any more." };
const LOCKED: Refusal = {
  code: "locked",
  text: "The instructor has locked this room. Nobody new can join it now.",
};

/** What can be mended in the form is told there; all else has a page of its own. */
function afterRefusal(before: Stand, refusal: Refusal): Stand {
  const isMendable = refusal.code === "badRequest" || refusal.code === "tooMany" || refusal.code === "unreachable";
  return before.at === "door" && isMendable ? { ...before, fault: refusal.text } : { at: "refused", refusal };
}

/** Takes the key out of the address, so that nobody who copies the address hands it on. */
function hideKey(): void {
  if (window.location.hash !== "") window.history.replaceState(window.history.state, "", window.location.pathname);
}
