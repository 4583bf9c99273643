"use client";

import type { ReactNode } from "react";
import { Sheet as PaperSheet } from "../paper";
import styles from "./sheets.module.css";

type Props = { readonly title: string; readonly close: () => void; readonly children: ReactNode };

/** A smaller sheet, laid over the page beside the margin. */
export function Sheet(props: Props) {
  return <PaperSheet {...props} look={styles} />;
}
