"use client";

import { type ReactNode, useId, useLayoutEffect, useRef } from "react";
import styles from "./sheet.module.css";

type Props = {
  readonly title: string;
  /** Whether it takes more of the page than its usual width. */
  readonly isWide?: boolean;
  readonly close: () => void;
  readonly children: ReactNode;
  /** Where the sheet lies and what it looks like, by the classes `sheet`, `content` and `head`: over the right of the page where nothing is said. */
  readonly look?: Readonly<Record<string, string>>;
};

/** A sheet of paper laid over the page for as long as it is needed; Esc takes it away. */
export function Sheet({ title, isWide = false, close, children, look = styles }: Props) {
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
      className={look.sheet}
      data-wide={isWide}
      aria-labelledby={heading}
      onCancel={(event) => {
        event.preventDefault();
        close();
      }}
      // The dialog fills itself with its content, so a press on the element itself is one beside the sheet.
      onPointerDown={(event) => event.target === event.currentTarget && close()}
    >
      <div className={look.content}>
        <div className={look.head}>
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
