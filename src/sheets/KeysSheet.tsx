"use client";

import { KEY_LIST } from "../board";
import { Sheet } from "./Sheet";
import styles from "./sheets.module.css";

/** Everything that the keyboard does on the board. */
export function KeysSheet({ close }: { readonly close: () => void }) {
  return (
    <Sheet title="Keys" close={close}>
      <p>With the drawing in focus, the first arrow key shows a ring on the grid; it is the keyboard’s pointer.</p>
      <table className={styles.keys}>
        <tbody>
          {KEY_LIST.map(({ keys, what }) => (
            <tr key={keys}>
              <th scope="row">{keys}</th>
              <td>{what}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </Sheet>
  );
}
