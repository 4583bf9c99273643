"use client";

import { useEffect, useMemo, useRef, useState } from "react";
import type { Board, BoardCircuit } from "../../shared/board";
import type { HiddenWanted } from "../../shared/messages";
import { changesText } from "./changes";
import { circuitWords, type PartWords } from "./circuitWords";
import styles from "./notes.module.css";

/** How long the circuit must rest before its changes are told, in ms: a drag is one change. */
const REST = 900;

type Props = {
  readonly board: Board;
  readonly circuit: BoardCircuit;
  /** The quantity in focus. */
  readonly wanted: HiddenWanted | null;
};

type Heard = { readonly words: readonly PartWords[]; readonly answer: string };

/** Tells whoever listens to the page rather than sees it what has changed, once it has come to rest. */
export function Announcer({ board, circuit, wanted }: Props) {
  const words = useMemo(() => circuitWords(board, circuit), [board, circuit]);
  const answer = wanted?.total ? `${wanted.name} ${wanted.total.mark} ${wanted.total.text}.` : "";
  const heard = useRef<Heard | null>(null);
  const [said, setSaid] = useState("");
  useEffect(() => {
    // What is there when the page opens stands on it to be read.
    if (!heard.current) heard.current = { words, answer };
    const before = heard.current;
    const timer = setTimeout(() => {
      heard.current = { words, answer };
      const news = [changesText(before.words, words), answer === before.answer ? "" : answer].join(" ").trim();
      if (news !== "") setSaid(news);
    }, REST);
    return () => clearTimeout(timer);
  }, [words, answer]);
  return (
    <p className={styles.unseen} aria-live="polite" data-testid="announcer">
      {said}
    </p>
  );
}
