"use client";

import { type BoardTools, REFERENCE, SELECT, STRETCH, type Tool, WIRE } from "../board";
import { InkTools } from "../ink";
import type { RoomConnection, RoomState } from "../room";
import styles from "./room.module.css";
import type { Shows } from "./useRoomView";
import type { InkInHand } from "./useTogether";

type Props = {
  readonly tools: BoardTools;
  readonly ink: InkInHand;
  readonly shows: Shows;
  readonly setShows: (shows: Shows) => void;
  readonly state: RoomState;
  readonly connection: RoomConnection;
};

const TOOLS: readonly { readonly tool: Tool; readonly word: string }[] = [
  { tool: STRETCH, word: "Stretch" },
  { tool: WIRE, word: "Wire" },
  { tool: SELECT, word: "Select" },
  { tool: REFERENCE, word: "Reference" },
];

/** The words in the margin of the page: what the pointer does, what is written onto the drawing, and undo. */
export function Margin({ tools, ink, shows, setShows, state, connection }: Props) {
  const { tool, setTool, openSheet } = tools;
  const take = (each: Tool) => {
    setTool(each);
    ink.setTool(null);
  };
  return (
    <nav className={styles.margin} aria-label="Tools">
      <ul>
        {TOOLS.map(({ tool: each, word }) => (
          <Word key={word} word={word} isPressed={!ink.tool && each.do === tool.do} act={() => take(each)} />
        ))}
        <Word word="More parts…" act={() => openSheet("parts")} />
        <Word word="Ask…" act={() => openSheet("ask")} />
      </ul>
      <span className={styles.marginTitle}>Mark</span>
      <InkTools {...ink} />
      <span className={styles.marginTitle}>Show</span>
      <ul>
        <Word
          word="Voltages"
          isPressed={shows.voltages}
          act={() => setShows({ ...shows, voltages: !shows.voltages })}
        />
        <Word
          word="Currents"
          isPressed={shows.currents}
          act={() => setShows({ ...shows, currents: !shows.currents })}
        />
        <Word
          word="Redrawn"
          isPressed={shows.redrawn}
          act={() => {
            // What is chosen is on the board, which the redrawn circuit covers.
            tools.choose(null);
            setShows({ ...shows, redrawn: !shows.redrawn });
          }}
        />
      </ul>
      <span className={styles.marginTitle}>Mine</span>
      <ul>
        <Word word="Undo" isOff={!state.canUndo} act={connection.undo} />
        <Word word="Redo" isOff={!state.canRedo} act={connection.redo} />
        <Word word="Paper…" act={() => openSheet("paper")} />
        <Word word="Keys…" act={() => openSheet("keys")} />
      </ul>
    </nav>
  );
}

type WordProps = {
  readonly word: string;
  readonly act: () => void;
  readonly isPressed?: boolean;
  readonly isOff?: boolean;
};

function Word({ word, act, isPressed, isOff = false }: WordProps) {
  return (
    <li>
      <button type="button" aria-pressed={isPressed} disabled={isOff} onClick={act}>
        {word}
      </button>
    </li>
  );
}
