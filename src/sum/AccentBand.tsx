import { accentOf, toneVariable } from "../figure";
import styles from "./sum.module.css";

/** The band of a source's card: its colour and its line pattern; ink for cards of several sources. */
export function AccentBand({ accent }: { readonly accent: number | null }) {
  const colour = toneVariable(accent ?? "ink");
  const dash = accent === null ? [] : accentOf(accent).dash;
  return (
    <svg className={styles.band} aria-hidden="true" focusable="false">
      <line x1="0" y1="3" x2="100%" y2="3" stroke={colour} strokeWidth="6" strokeDasharray={dash.join(" ")} />
    </svg>
  );
}

/** The mark of a source's accent, with its name for whoever cannot see it. */
export function AccentMark({ accent }: { readonly accent: number }) {
  const { mark } = accentOf(accent);
  return (
    <svg className={styles.mark} viewBox="0 0 12 12" aria-hidden="true" focusable="false">
      <path d={mark} fill={toneVariable(accent)} />
    </svg>
  );
}
