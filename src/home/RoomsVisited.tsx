"use client";

import Link from "next/link";
import { useEffect, useState } from "react";
import type { RoomVisit } from "../../shared/messages";
import { roomsVisited } from "../access";
import styles from "./home.module.css";

/** The rooms that this browser has been in; nothing where there are none. */
export function RoomsVisited() {
  const [rooms, setRooms] = useState<readonly RoomVisit[]>([]);
  useEffect(() => {
    let isGone = false;
    void roomsVisited().then((answer) => {
      if (answer.ok && !isGone) setRooms(answer.value);
    });
    return () => {
      isGone = true;
    };
  }, []);
  if (rooms.length === 0) return null;
  return (
    <section aria-labelledby="visited">
      <h2 id="visited">Rooms you were in</h2>
      <ul className={styles.visits}>
        {rooms.map(({ room, title, role, lastSeen }) => (
          <li key={room}>
            <Link href={`/room/${room}`}>{title || "A room without a title"}</Link>
            <span className={styles.visit}>
              {room}, {role}, {new Date(lastSeen).toLocaleDateString([], { day: "numeric", month: "long" })}
            </span>
          </li>
        ))}
      </ul>
    </section>
  );
}
