"use client";

import type { Tool } from "../board";
import type { RoomConnection, RoomState } from "../room";
import styles from "./room.module.css";
import type { Shows } from "./useRoomView";

type Props = {
  readonly tool: Tool;
  readonly setTool: (tool: Tool) => void;
  readonly shows: Shows;
  readonly setShows: (shows: Shows) => void;
  readonly state: RoomState;
  readonly connection: RoomConnection;
};

const TOOLS: readonly { readonly tool: Tool; readonly word: string }[] = [
  { tool: "stretch", word: "Stretch" },
  { tool: "select", word: "Select" },
  { tool: "reference", word: "Reference" },
];

/** The words in the margin of the page: what the pointer does, what is written onto the drawing, and undo. */
export function Margin({ tool, setTool, shows, setShows, state, connection }: Props) {
  return (
    <nav className={styles.margin} aria-label="Tools">
      <ul>
        {TOOLS.map(({ tool: each, word }) => (
          <li key={each}>
            <button type="button" aria-pressed={each === tool} onClick={() => setTool(each)}>
              {word}
            </button>
          </li>
        ))}
      </ul>
      <span className={styles.marginTitle}>Show</span>
      <ul>
        <li>
          <button
            type="button"
            aria-pressed={shows.voltages}
            onClick={() => setShows({ ...shows, voltages: !shows.voltages })}
          >
            Voltages
          </button>
        </li>
        <li>
          <button
            type="button"
            aria-pressed={shows.currents}
            onClick={() => setShows({ ...shows, currents: !shows.currents })}
          >
            Currents
          </button>
        </li>
      </ul>
      <span className={styles.marginTitle}>Mine</span>
      <ul>
        <li>
          <button type="button" disabled={!state.canUndo} onClick={connection.undo}>
            Undo
          </button>
        </li>
        <li>
          <button type="button" disabled={!state.canRedo} onClick={connection.redo}>
            Redo
          </button>
        </li>
      </ul>
    </nav>
  );
}
