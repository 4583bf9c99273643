import dynamic from "next/dynamic";
import styles from "./sum.module.css";
import type { TryPanelProps } from "./TryPanel";

/** What is tried at the open card; loaded where something is, or can be. */
export const TryPanelPlace = dynamic<TryPanelProps>(() => import("./TryPanel").catch(() => ({ default: NotLoaded })), {
  ssr: false,
});

/** Where the server has other pages by now than this one. */
function NotLoaded() {
  return <p className={styles.notLoaded}>Reload the page to try a value here.</p>;
}
