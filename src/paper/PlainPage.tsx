import Link from "next/link";
import type { ReactNode } from "react";
import styles from "./page.module.css";
import { Wordmark } from "./Wordmark";

type Props = { readonly title: string; readonly children: ReactNode };

/** A page of paper with one matter on it: a form, or why a room is not open to this person. */
export function PlainPage({ title, children }: Props) {
  return (
    <main className={styles.page}>
      <Link href="/" className={styles.home} aria-label="addend, home">
        <Wordmark />
      </Link>
      <h1>{title}</h1>
      {children}
    </main>
  );
}
