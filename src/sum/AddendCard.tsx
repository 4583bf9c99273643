import { accentOf, type Figure, FigureSvg } from "../figure";
import { AccentBand, AccentMark } from "./AccentBand";
import type { SumCard } from "./cards";
import { QuantityName } from "./QuantityName";
import styles from "./sum.module.css";

type Props = {
  readonly card: SumCard;
  /** Name of the wanted quantity. */
  readonly name: string;
  readonly figure: Figure;
  readonly isChosen: boolean;
  readonly choose: () => void;
};

/** One addend of the sum, or its total: a door to that circuit. */
export function AddendCard({ card, name, figure, isChosen, choose }: Props) {
  const colour = card.accent === null ? undefined : accentOf(card.accent).colour;
  return (
    <button
      type="button"
      className={card.acting === null ? styles.total : styles.card}
      aria-pressed={isChosen}
      data-card={card.key}
      onClick={choose}
    >
      <AccentBand accent={card.accent} />
      <span className={styles.cardTitle}>
        {card.accent !== null && <AccentMark accent={card.accent} />}
        <b>{card.title}</b>
        <span className={styles.sourceValue}>{card.sourceValue}</span>
      </span>
      <FigureSvg figure={figure} weight={2.1} className={styles.thumbnail ?? ""} />
      <span
        className={isLong(card) ? styles.longValue : styles.value}
        style={{ color: colour }}
        data-testid={`value-${card.key}`}
      >
        <span className={styles.valueName}>
          <QuantityName name={name} prime={card.prime} /> {card.value?.mark ?? "="}{" "}
        </span>
        {card.value ? <b>{card.value.text}</b> : <span className={styles.noValue}>no value yet</span>}
      </span>
    </button>
  );
}

/** Sums in time and phasors take a smaller type. */
function isLong({ value }: SumCard): boolean {
  return (value?.text.length ?? 0) > 13;
}
