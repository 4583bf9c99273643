"use client";

import type { ChangeEvent } from "react";
import styles from "./home.module.css";

type Props = { readonly bringIn: (file: File) => Promise<void>; readonly isStarting: boolean };

/** Brings a session in that was saved as a file, and opens its replay. */
export function SavedSessionStart({ bringIn, isStarting }: Props) {
  const open = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // So that the same file can be chosen again.
    event.target.value = "";
    if (file) await bringIn(file);
  };
  return (
    <label className={styles.file}>
      Bring in a saved session
      <input type="file" accept=".addend-session" disabled={isStarting} onChange={open} />
    </label>
  );
}
