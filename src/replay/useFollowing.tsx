"use client";

import { type ReactNode, useEffect, useState } from "react";
import { entryId } from "../../shared/board";
import type { ReplayPerson } from "../../shared/replay";
import type { Person } from "../people";
import styles from "./notes.module.css";
import { firstToFollow } from "./replayPeople";
import type { Scene } from "./useScene";

/** Opens the cards that one person opened, until whoever looks opens one of their own. */
export function useFollowing(participants: readonly ReplayPerson[], people: readonly Person[], { view }: Scene) {
  const [followed, setFollowed] = useState(() => firstToFollow(participants));
  const { card = null, wanted = null } = people.find(({ client }) => client === followed) ?? {};
  const { setCard, setFocusEntry } = view;
  // biome-ignore lint/correctness/useExhaustiveDependencies: only another look of theirs opens another card
  useEffect(() => {
    if (card !== null) setCard(card);
    if (wanted !== null) setFocusEntry(entryId(wanted));
  }, [followed, card, wanted]);
  const choose = (key: string) => {
    setFollowed(null);
    setCard(key);
  };
  const choice: ReactNode = (
    <label className={styles.follow}>
      Cards open as
      <select
        value={followed ?? ""}
        onChange={(event) => setFollowed(event.target.value === "" ? null : Number(event.target.value))}
      >
        <option value="">I open them</option>
        {participants.map(({ number, name }) => (
          <option key={number} value={number}>
            {name} opened them
          </option>
        ))}
      </select>
    </label>
  );
  return { choose, choice, isFollowing: followed !== null };
}
