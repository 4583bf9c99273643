import dynamic from "next/dynamic";
import type { ReactNode } from "react";
import { type Figure, FigureSvg, toneVariable } from "../figure";
import { AccentBand, AccentMark } from "./AccentBand";
import { type SumCard, TOTAL } from "./cards";
import type { CardTries } from "./cardTries";
import { QuantityName } from "./QuantityName";
import styles from "./sum.module.css";

// Only where something is, or can be, tried: a room whose answers are shown does without.
const TryCorner = dynamic(() => import("./TryCorner").catch(() => ({ default: NotLoaded })), { ssr: false });

/** Where the server has other pages by now than this one. */
function NotLoaded() {
  return <p className={styles.notLoaded}>Reload the page to try a value here.</p>;
}

type Props = {
  readonly card: SumCard;
  /** Name of the wanted quantity. */
  readonly name: string;
  readonly figure: Figure;
  readonly isChosen: boolean;
  readonly choose: () => void;
  /** Who of the others looks at it. */
  readonly lookers: ReactNode;
  readonly hasProduct: boolean;
  /** For the instructor: whether the others see its value, and the way to change that. Null for everybody else. */
  readonly showing: Showing | null;
  /** What is tried at it, null where nothing is or can be. */
  readonly tries: CardTries | null;
  /** Takes a group's card away; null for other cards, and for those who may not draw. */
  readonly remove: (() => void) | null;
};

export type Showing = { readonly isShown: boolean; readonly setShown: (isShown: boolean) => void };

/** One addend of the sum, its total, or a group: a door to that circuit, with what may be done about it. */
export function AddendCard(props: Props) {
  const { card, name, showing, tries, remove } = props;
  return (
    <div className={card.key === TOTAL ? styles.totalPlace : styles.place} data-tried={tries !== null}>
      <div className={card.acting === null ? styles.totalFrame : styles.frame}>
        <CardFace {...props} />
        {tries && <TryCorner key={name} {...{ card, name, tries }} hasCount={showing !== null} />}
      </div>
      {(showing || remove) && (
        <div className={styles.acts}>
          {showing && <ShowingWord card={card} {...showing} />}
          {remove && (
            <button type="button" aria-label={`Take away the card “${card.title}”`} onClick={remove}>
              Take away
            </button>
          )}
        </div>
      )}
    </div>
  );
}

function CardFace({ card, name, figure, isChosen, choose, lookers, hasProduct, tries }: Props) {
  const colour = card.accent === null ? undefined : toneVariable(card.accent);
  return (
    <button type="button" className={styles.card} aria-pressed={isChosen} data-card={card.key} onClick={choose}>
      <AccentBand accent={card.accent} />
      <span className={styles.cardTitle}>
        {card.accent !== null && <AccentMark accent={card.accent} />}
        <b>{card.title}</b>
        <span className={styles.sourceValue}>{card.sourceValue}</span>
      </span>
      <FigureSvg figure={figure} weight={2.1} className={styles.thumbnail ?? ""} />
      {!tries?.hand && (
        <span
          className={isLong(card) ? styles.longValue : styles.value}
          style={{ color: colour }}
          data-testid={`value-${card.key}`}
        >
          <span className={styles.valueName}>
            <QuantityName name={name} primes={card.primes} /> {card.value?.mark ?? "="}{" "}
          </span>
          <CardValue card={card} />
        </span>
      )}
      {hasProduct && card.product && <span className={styles.product}>= {card.product}</span>}
      {lookers}
    </button>
  );
}

function CardValue({ card }: Pick<Props, "card">) {
  if (card.value) return <b>{card.value.text}</b>;
  return <span className={styles.noValue}>{card.isHidden ? "hidden until revealed" : "no value yet"}</span>;
}

function ShowingWord({ card, isShown, setShown }: Pick<Props, "card"> & Showing) {
  return (
    <>
      <span className={styles.showing}>{isShown ? "" : "hidden from others"}</span>
      <button
        type="button"
        aria-label={`${isShown ? "Hide" : "Reveal"} “${card.title}”`}
        onClick={() => setShown(!isShown)}
      >
        {isShown ? "Hide" : "Reveal"}
      </button>
    </>
  );
}

/** Sums in time, phasors and groups take a smaller type. */
function isLong({ value, primes }: SumCard): boolean {
  return (value?.text.length ?? 0) + 4 * Math.max(0, primes.length - 1) > 13;
}
