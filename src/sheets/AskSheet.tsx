"use client";

import { type Board, type BoardWanted, type Command, type EntryId, WANTED_KINDS } from "../../shared/board";
import type { Tool } from "../board";
import { turnedWanted } from "../slip";
import { wantedPlace, wantedWords } from "../words";
import { Sheet } from "./Sheet";
import styles from "./sheets.module.css";

type Props = {
  readonly board: Board;
  readonly command: (command: Command) => void;
  readonly take: (tool: Tool) => void;
  readonly close: () => void;
  /** The wanted quantity in focus, and the way to put another there. */
  readonly focus: EntryId | null;
  readonly setFocus: (entry: EntryId) => void;
};

/** What is wanted of the circuit: the quantities that are marked on the drawing, and the ways to mark another. */
export function AskSheet({ board, command, take, close, focus, setFocus }: Props) {
  return (
    <Sheet title="What is wanted" close={close}>
      {board.wanted.length > 0 && (
        <ul className={styles.wanted} aria-label="Wanted now">
          {board.wanted.map((wanted) => (
            <li key={wanted.id}>
              <WantedLine {...{ board, command, wanted, setFocus }} isInFocus={wanted.id === focus} />
            </li>
          ))}
        </ul>
      )}
      <p>Ask for another, then pick where it is on the drawing:</p>
      <ul className={styles.kinds}>
        {WANTED_KINDS.map((kind) => (
          <li key={kind}>
            <button
              type="button"
              onClick={() => {
                take({ do: "pick", pick: { for: "wanted", kind } });
                close();
              }}
            >
              {wantedWords(kind)}
            </button>
          </li>
        ))}
      </ul>
    </Sheet>
  );
}

type LineProps = Pick<Props, "board" | "command" | "setFocus"> & {
  readonly wanted: BoardWanted;
  readonly isInFocus: boolean;
};

function WantedLine({ board, command, wanted, isInFocus, setFocus }: LineProps) {
  const turned = turnedWanted(wanted);
  const name = wanted.name ?? "It";
  return (
    <>
      <span>
        <b>{name}</b>, {wantedPlace(wanted, board)}
        {isInFocus && <em> in focus</em>}
      </span>
      <span className={styles.row}>
        {!isInFocus && (
          <button type="button" onClick={() => setFocus(wanted.id)} aria-label={`Put ${name} in focus`}>
            Put in focus
          </button>
        )}
        {turned && (
          <button type="button" onClick={() => command(turned)} aria-label={`Turn round the direction of ${name}`}>
            Turn round
          </button>
        )}
        <button
          type="button"
          onClick={() => command({ do: "clearWanted", id: wanted.id })}
          aria-label={`${name} is not wanted`}
        >
          Not wanted
        </button>
      </span>
    </>
  );
}
