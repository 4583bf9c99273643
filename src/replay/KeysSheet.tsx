"use client";

import { Sheet } from "../paper";
import notesStyles from "./notes.module.css";

type Props = { readonly close: () => void };

const KEYS: readonly (readonly [keys: string, what: string])[] = [
  ["Space", "Play and pause"],
  ["← →", "The edit before, and the next one"],
  ["Shift ← →", "Ten seconds back and on"],
  ["Page Up, Page Down", "The chapter before, and the next one"],
  ["Home, End", "The beginning and the end"],
  ["On the board: arrows, + − 0", "Move the paper, make it larger or smaller, fit it"],
];

/** The keys of a replay's page. */
export default function KeysSheet({ close }: Props) {
  return (
    <Sheet title="Keys" close={close}>
      <dl className={notesStyles.keys}>
        {KEYS.map(([keys, what]) => (
          <div key={keys}>
            <dt>{keys}</dt>
            <dd>{what}</dd>
          </div>
        ))}
      </dl>
    </Sheet>
  );
}
