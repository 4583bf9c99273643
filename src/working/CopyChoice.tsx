"use client";

import { useEffect, useRef, useState } from "react";
import { type MathSetter, useMathSetter } from "../math";
import { copyText } from "../paper";
import { COPY_FORMATS, type CopyFormat } from "./lineWriting";
import styles from "./working.module.css";

type Props = {
  /** What is copied: "line 3", "the working". */
  readonly what: string;
  readonly textOf: (format: CopyFormat, set: MathSetter) => string;
  readonly isOpen: boolean;
  readonly setOpen: (isOpen: boolean) => void;
};

/** Copies mathematics in the format that is chosen; where the browser refuses, the text stands there to be copied by hand. */
export function CopyChoice({ what, textOf, isOpen, setOpen }: Props) {
  const set = useMathSetter();
  const [said, setSaid] = useState("");
  const [refused, setRefused] = useState<string | null>(null);
  const copy = async (format: CopyFormat, word: string) => {
    if (!set) {
      setSaid("The mathematics is still being loaded.");
      return;
    }
    const text = textOf(format, set);
    const isCopied = await copyText(text);
    setSaid(isCopied ? `Copied as ${word}` : "This browser does not let the page copy. The text is here:");
    setRefused(isCopied ? null : text);
    if (isCopied) setOpen(false);
  };
  const turn = () => {
    setSaid("");
    setRefused(null);
    setOpen(!isOpen);
  };
  return (
    <span className={styles.copy}>
      <output className={styles.said}>{said}</output>
      <button type="button" aria-expanded={isOpen} aria-label={`Copy ${what}`} onClick={turn}>
        Copy
      </button>
      {isOpen &&
        COPY_FORMATS.map(({ format, word }) => (
          <button key={format} type="button" aria-label={`Copy ${what} as ${word}`} onClick={() => copy(format, word)}>
            {word}
          </button>
        ))}
      {isOpen && refused !== null && <ByHand text={refused} />}
    </span>
  );
}

function ByHand({ text }: { readonly text: string }) {
  const field = useRef<HTMLTextAreaElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another text is selected anew
  useEffect(() => field.current?.select(), [text]);
  return <textarea ref={field} readOnly value={text} rows={3} aria-label="The text to copy by hand" />;
}
