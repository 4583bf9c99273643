"use client";

import { type ChangeEvent, useState } from "react";
import type { RoomStart } from "../../shared/messages";
import styles from "./home.module.css";

type Props = { readonly start: (from: RoomStart) => Promise<void>; readonly isStarting: boolean };

/** Starts a room with a circuit file, or tells every fault of it. */
export function CircuitFileStart({ start, isStarting }: Props) {
  const [faults, setFaults] = useState<{ readonly name: string; readonly sentences: readonly string[] } | null>(null);
  const open = async (event: ChangeEvent<HTMLInputElement>) => {
    const file = event.target.files?.[0];
    // So that the same file, mended meanwhile, can be chosen again.
    event.target.value = "";
    if (!file) return;
    // The reader of files is large and seldom wanted.
    const { faultsOfCircuit } = await import("../file/faultsOfCircuit");
    const text = await file.text();
    const sentences = faultsOfCircuit(text);
    setFaults(sentences.length > 0 ? { name: file.name, sentences } : null);
    if (sentences.length === 0) await start({ kind: "file", file: JSON.parse(text) });
  };
  return (
    <>
      <label className={styles.file}>
        Start with a circuit file
        <input type="file" accept=".json,application/json" disabled={isStarting} onChange={open} />
      </label>
      <div role="alert" className={styles.faults}>
        {faults && (
          <>
            <p>{faults.name} cannot be read:</p>
            <ul>
              {faults.sentences.map((sentence) => (
                <li key={sentence}>{sentence}</li>
              ))}
            </ul>
          </>
        )}
      </div>
    </>
  );
}
