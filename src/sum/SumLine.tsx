"use client";

import { Fragment, type ReactNode, useState } from "react";
import type { EntryId } from "../../shared/board";
import type { HiddenWanted } from "../../shared/messages";
import type { Figure } from "../figure";
import { moveAlong } from "../paper";
import { AddendCard, type Showing } from "./AddendCard";
import { type SumCard, TOTAL } from "./cards";
import type { CardTries } from "./cardTries";
import { FocusChoice } from "./FocusChoice";
import { GroupButton } from "./GroupSheet";
import { HandIn, type Handing } from "./HandIn";
import { QuantityName } from "./QuantityName";
import styles from "./sum.module.css";

type Props = {
  /** What the landmark is called, where there is more than one sum on a page. */
  readonly label?: string;
  /** The wanted quantities, of which one is in focus; empty where nothing is asked. */
  readonly wanted: readonly HiddenWanted[];
  readonly focus: number;
  readonly setFocus: (index: number) => void;
  readonly cards: readonly SumCard[];
  readonly figureOf: (card: SumCard) => Figure;
  readonly chosen: string;
  readonly choose: (key: string) => void;
  /** Who of the others looks at a card. */
  readonly lookersAt: (key: string) => ReactNode;
  /** What to say instead of, or besides, the cards. */
  readonly note: string | null;
  /** For the instructor: whether a card's value is shown to the others. Null for everybody else. */
  readonly showingOf: ((card: SumCard) => Showing) | null;
  /** What is tried at a card; null where nothing is or can be. */
  readonly triesOf: (card: SumCard) => CardTries | null;
  /** Where values are judged together: what waits for that. Null where each is judged at once. */
  readonly handing: Handing | null;
  /** What those who may draw can do about groups of sources; null for the others. */
  readonly groups: Groups | null;
};

export type Groups = {
  /** Makes a card of the sources of these names. */
  readonly add: (sources: readonly string[]) => void;
  readonly remove: (group: EntryId) => void;
};

/** The answer as an equation: each addend a card that opens its circuit, then their total, then groups of sources. */
export function SumLine(props: Props) {
  const { label = "The sum", wanted, focus, cards, note } = props;
  const [hasProducts, setProducts] = useState(false);
  const asked = wanted[focus];
  if (!asked) {
    return (
      <section className={styles.line} aria-label={label}>
        <p className={styles.lead}>{note}</p>
      </section>
    );
  }
  const isInSum = (card: SumCard) => card.key === TOTAL || card.primes.length === 1;
  const place = (card: SumCard) => <PlacedCard {...props} card={card} name={asked.name} hasProduct={hasProducts} />;
  const together = cards.filter((card) => !isInSum(card));
  return (
    <section className={styles.line} aria-label={label}>
      {/* biome-ignore lint/a11y/noStaticElementInteractions: the cards in it take the keys */}
      <div className={styles.row} onKeyDown={(event) => moveAlong(event, "[data-card]")}>
        <div className={styles.left}>
          <span className={styles.name}>
            <QuantityName name={asked.name} /> <span>=</span>
          </span>
          <SumWords {...props} hasProducts={hasProducts} setProducts={setProducts} />
          {props.handing && <HandIn {...props.handing} />}
        </div>
        {cards.filter(isInSum).map((card, i) => (
          <Fragment key={card.key}>
            {i > 0 && (
              <span className={styles.operator} aria-hidden="true">
                {card.key === TOTAL ? "=" : "+"}
              </span>
            )}
            {place(card)}
          </Fragment>
        ))}
        {asked.components.length > 0 && <Components of={asked} />}
        {together.length > 0 && (
          <section className={styles.together} aria-label="Sources together">
            {together.map((card) => (
              <Fragment key={card.key}>{place(card)}</Fragment>
            ))}
          </section>
        )}
      </div>
      {note && <p className={styles.note}>{note}</p>}
    </section>
  );
}

type PlacedProps = Props & { readonly card: SumCard; readonly name: string; readonly hasProduct: boolean };

function PlacedCard(props: PlacedProps) {
  const { card, name, hasProduct, figureOf, chosen, choose, lookersAt, showingOf, triesOf, groups } = props;
  return (
    <AddendCard
      card={card}
      name={name}
      figure={figureOf(card)}
      isChosen={card.key === chosen}
      choose={() => choose(card.key)}
      lookers={lookersAt(card.key)}
      hasProduct={hasProduct}
      showing={showingOf?.(card) ?? null}
      tries={triesOf(card)}
      remove={removal(card, groups)}
    />
  );
}

type WordsProps = Props & { readonly hasProducts: boolean; readonly setProducts: (has: boolean) => void };

/** What can be asked of the whole line: another quantity, each addend as a product, sources together. */
function SumWords({ wanted, focus, setFocus, cards, groups, hasProducts, setProducts }: WordsProps) {
  const alone = cards.filter((card) => card.primes.length === 1);
  return (
    <>
      {wanted.length > 1 && <FocusChoice wanted={wanted} focus={focus} setFocus={setFocus} />}
      {alone.some((card) => card.product !== null) && (
        <button
          type="button"
          className={styles.word}
          aria-pressed={hasProducts}
          onClick={() => setProducts(!hasProducts)}
        >
          Factors
        </button>
      )}
      {groups && alone.length > 2 && (
        <GroupButton sources={alone} taken={cards.filter((card) => card.primes.length > 1)} add={groups.add} />
      )}
    </>
  );
}

function removal({ group }: SumCard, groups: Groups | null): (() => void) | null {
  return group && groups ? () => groups.remove(group) : null;
}

/** The numbers that make up an equivalent: its voltage and resistance, or the load and its power. */
function Components({ of }: { readonly of: HiddenWanted }) {
  return (
    <dl className={styles.components}>
      {of.components.map(({ name, value }) => (
        <div key={name}>
          <dt>
            <QuantityName name={name} /> {value.mark}
          </dt>
          <dd>{value.text}</dd>
        </div>
      ))}
    </dl>
  );
}
