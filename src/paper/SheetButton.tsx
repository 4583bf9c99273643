"use client";

import { type ReactNode, useState } from "react";

type Props = {
  readonly word: string;
  readonly className?: string;
  /** What is on the sheet; it is made when the sheet is opened. */
  readonly children: (close: () => void) => ReactNode;
};

/** A word that opens a sheet. */
export function SheetButton({ word, className, children }: Props) {
  const [isOpen, setOpen] = useState(false);
  return (
    <>
      <button
        type="button"
        className={className}
        aria-haspopup="dialog"
        aria-expanded={isOpen}
        onClick={() => setOpen(true)}
      >
        {word}
      </button>
      {isOpen && children(() => setOpen(false))}
    </>
  );
}
