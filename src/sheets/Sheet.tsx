"use client";

import { type ReactNode, useEffect, useId, useRef } from "react";
import styles from "./sheets.module.css";

type Props = { readonly title: string; readonly close: () => void; readonly children: ReactNode };

/** A sheet of paper laid over the page. Escape and Close take it away, and the keyboard goes back to where it was. */
export function Sheet({ title, close, children }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  useEffect(() => dialog.current?.showModal(), []);
  return (
    <dialog ref={dialog} className={styles.sheet} aria-labelledby={heading} onClose={close}>
      <header>
        <h2 id={heading}>{title}</h2>
        <button type="button" onClick={() => dialog.current?.close()}>
          Close
        </button>
      </header>
      {children}
    </dialog>
  );
}
