"use client";

import { type ReactNode, useId, useLayoutEffect, useRef } from "react";
import styles from "./sheet.module.css";

type Props = {
  readonly title: string;
  /** Whether it takes more of the page than its usual width. */
  readonly isWide?: boolean;
  readonly close: () => void;
  readonly children: ReactNode;
};

/** A sheet of paper laid over the right of the page for as long as it is needed; Esc takes it away. */
export function Sheet({ title, isWide = false, close, children }: Props) {
  const dialog = useRef<HTMLDialogElement>(null);
  const heading = useId();
  // Closed while it is still on the page: a dialog that is taken off open does not give the focus back.
  useLayoutEffect(() => {
    const element = dialog.current;
    element?.showModal();
    return () => element?.close();
  }, []);
  return (
    <dialog
      ref={dialog}
      className={styles.sheet}
      data-wide={isWide}
      aria-labelledby={heading}
      onCancel={(event) => {
        event.preventDefault();
        close();
      }}
      // The dialog fills itself with its content, so a press on the element itself is one beside the sheet.
      onPointerDown={(event) => event.target === event.currentTarget && close()}
    >
      <div className={styles.content}>
        <div className={styles.head}>
          <h2 id={heading}>{title}</h2>
          <button type="button" onClick={close}>
            Close
          </button>
        </div>
        {children}
      </div>
    </dialog>
  );
}
