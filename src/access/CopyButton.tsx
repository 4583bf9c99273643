"use client";

import { useState } from "react";
import { copyText } from "../paper";
import styles from "./access.module.css";

type Props = { readonly word: string; readonly text: string };

/** Copies a text, or, where the browser does not allow it, says so: the text stands beside it to be copied by hand. */
export function CopyButton({ word, text }: Props) {
  const [said, setSaid] = useState("");
  const copy = async () => {
    const isCopied = await copyText(text);
    setSaid(isCopied ? "Copied" : "This browser does not let the page copy; select the text and copy it by hand.");
  };
  return (
    <>
      <button type="button" onClick={copy}>
        {word}
      </button>
      <output className={styles.said}>{said}</output>
    </>
  );
}
