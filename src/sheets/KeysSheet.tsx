"use client";

import { KEY_LIST } from "../board";
import { WORKING_KEYS } from "../working/workingKeys";
import { Sheet } from "./Sheet";
import styles from "./sheets.module.css";

/** Everything that the keyboard does on the board and among the worked lines. */
export function KeysSheet({ close }: { readonly close: () => void }) {
  return (
    <Sheet title="Keys" close={close}>
      <p>With the drawing in focus, the first arrow key shows a ring on the grid; it is the keyboard’s pointer.</p>
      <KeyTable keys={KEY_LIST} />
      <p>With a line of the working in focus:</p>
      <KeyTable keys={WORKING_KEYS} />
    </Sheet>
  );
}

function KeyTable({ keys: list }: { readonly keys: typeof KEY_LIST }) {
  return (
    <table className={styles.keys}>
      <tbody>
        {list.map(({ keys, what }) => (
          <tr key={keys}>
            <th scope="row">{keys}</th>
            <td>{what}</td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
