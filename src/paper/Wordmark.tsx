import styles from "./wordmark.module.css";

export function Wordmark() {
  return (
    <span className={styles.wordmark}>
      addend<i>+</i>
    </span>
  );
}
