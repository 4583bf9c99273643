"use client";

import Link from "next/link";
import { type ReactNode, useCallback, useEffect, useState } from "react";
import type { ReplayManifest, Timeline } from "../../shared/replay";
import { type Refusal, RefusalPage } from "../access";
import { PlainPage, pageStyles } from "../paper";
import { usePaperSettings } from "../settings";
import { ReplayPlayer } from "./player";
import styles from "./replay.module.css";
import { missedText, type ReplayAddress, readAddress } from "./replayAddress";
import { type ReplayApi, replayApi } from "./replayApi";
import { Session } from "./Session";

type Opened = {
  readonly api: ReplayApi;
  readonly manifest: ReplayManifest;
  readonly player: ReplayPlayer;
  readonly secret: string | null;
  /** Why it does not open at the moment that the address names. */
  readonly missed: string | null;
};

type Stand =
  | { readonly at: "opening" }
  | { readonly at: "refused"; readonly refusal: Refusal; readonly address: ReplayAddress }
  | ({ readonly at: "open" } & Opened);

/** A room's session, fetched as far as it is needed, for those who may see it. */
export default function Replay({ room }: { readonly room: string }) {
  const [stand, look] = useOpening(room);
  usePaperSettings();
  switch (stand.at) {
    case "opening":
      return <p className={styles.waiting}>Opening the session …</p>;
    case "refused":
      return <Refused room={room} {...stand} again={look} />;
    case "open":
      return <Session room={room} {...stand} />;
  }
}

function useOpening(room: string): readonly [Stand, () => void] {
  const [stand, setStand] = useState<Stand>({ at: "opening" });
  const [tries, setTries] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each try looks again
  useEffect(() => {
    let isGone = false;
    let player: ReplayPlayer | null = null;
    const address = readAddress(window.location.search, window.location.hash);
    const { at, secret } = address;
    const api = replayApi(room, secret);
    void openSession(api).then((session) => {
      if (isGone) return;
      if ("refusal" in session) return setStand({ at: "refused", refusal: session.refusal, address });
      player = new ReplayPlayer(api, session.timeline, at ?? 0);
      const missed = missedText(address, player.last);
      setStand({ at: "open", api, manifest: session.manifest, player, secret, missed });
    });
    return () => {
      isGone = true;
      player?.close();
    };
  }, [room, tries]);
  const look = useCallback(() => {
    setStand({ at: "opening" });
    setTries((before) => before + 1);
  }, []);
  // Another link in the same tab changes no more than what stands behind #, for which browsers load nothing.
  useEffect(() => {
    window.addEventListener("hashchange", look);
    return () => window.removeEventListener("hashchange", look);
  }, [look]);
  return [stand, look];
}

type Found = { readonly manifest: ReplayManifest; readonly timeline: Timeline } | { readonly refusal: Refusal };

async function openSession(api: ReplayApi): Promise<Found> {
  const [manifest, timeline] = await Promise.all([api.manifest(), api.timeline()]);
  if (!manifest.ok) return { refusal: manifest.refusal };
  if (!timeline.ok) return { refusal: timeline.refusal };
  return { manifest: manifest.value, timeline: timeline.value };
}

type RefusedProps = {
  readonly room: string;
  readonly refusal: Refusal;
  readonly address: ReplayAddress;
  readonly again: () => void;
};

/** What is wrong with the link that a session was opened by. */
const LINK_REFUSALS = new Set<Refusal["code"]>(["wrongLink", "linkExpired", "linkRevoked"]);

/** Why the session is not open. */
function Refused({ room, refusal, address, again }: RefusedProps) {
  const { secret, isCut } = address;
  if (refusal.code === "notMember" && isCut) {
    return (
      <NoSession>
        It is incomplete: what has to stand behind “#link=” at its end is missing, or not as it was made. Copy the whole
        link once more from where you have it, or ask whoever gave it to you to send it again.
      </NoSession>
    );
  }
  if (refusal.code === "notMember") {
    return (
      <PlainPage title={`The session of room ${room} is for those who are in it`}>
        <p>{refusal.text}</p>
        <p className={pageStyles.row}>
          <Link href={`/room/${room}`}>Join the room</Link>
        </p>
      </PlainPage>
    );
  }
  if (secret === null || !LINK_REFUSALS.has(refusal.code)) {
    return <RefusalPage room={room} refusal={refusal} again={again} />;
  }
  return <NoSession>{refusal.text}</NoSession>;
}

function NoSession({ children }: { readonly children: ReactNode }) {
  return (
    <PlainPage title="This link does not open a session">
      <p>{children}</p>
    </PlainPage>
  );
}
