"use client";

import { useEffect, useState, useSyncExternalStore } from "react";
import { joinRoom, type RoomConnection, type RoomState } from "./roomConnection";

/** The room of this name, joined for as long as the component is on the page; null until then. */
export function useRoom(room: string): RoomConnection | null {
  const [connection, setConnection] = useState<RoomConnection | null>(null);
  useEffect(() => {
    const { protocol, host } = window.location;
    const joined = joinRoom(`${protocol === "https:" ? "wss" : "ws"}://${host}/sync`, room, Date.now);
    setConnection(joined);
    return () => {
      setConnection(null);
      joined.close();
    };
  }, [room]);
  return connection;
}

export function useRoomState(connection: RoomConnection): RoomState {
  return useSyncExternalStore(connection.subscribe, connection.getState, connection.getState);
}
