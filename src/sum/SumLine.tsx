"use client";

import { Fragment } from "react";
import type { HiddenWanted } from "../../shared/messages";
import type { Figure } from "../figure";
import { AddendCard } from "./AddendCard";
import type { SumCard } from "./cards";
import { QuantityName } from "./QuantityName";
import styles from "./sum.module.css";

type Props = {
  /** The wanted quantities, of which one is in focus; empty where nothing is asked. */
  readonly wanted: readonly HiddenWanted[];
  readonly focus: number;
  readonly setFocus: (index: number) => void;
  readonly cards: readonly SumCard[];
  readonly figureOf: (card: SumCard) => Figure;
  readonly chosen: string;
  readonly choose: (key: string) => void;
  /** What to say instead of, or besides, the cards. */
  readonly note: string | null;
};

/** The answer as an equation: each addend a card that opens its circuit, then their total. */
export function SumLine({ wanted, focus, setFocus, cards, figureOf, chosen, choose, note }: Props) {
  const asked = wanted[focus];
  return (
    <section className={styles.line} aria-label="The sum">
      {asked && (
        <div className={styles.left}>
          <span className={styles.name}>
            <QuantityName name={asked.name} /> <span>=</span>
          </span>
          {wanted.length > 1 && <FocusChoice wanted={wanted} focus={focus} setFocus={setFocus} />}
        </div>
      )}
      {asked &&
        cards.map((card, i) => (
          <Fragment key={card.key}>
            {i > 0 && (
              <span className={styles.operator} aria-hidden="true">
                {card.acting === null ? "=" : "+"}
              </span>
            )}
            <AddendCard
              card={card}
              name={asked.name}
              figure={figureOf(card)}
              isChosen={card.key === chosen}
              choose={() => choose(card.key)}
            />
          </Fragment>
        ))}
      {asked && asked.components.length > 0 && <Components of={asked} />}
      {note && <p className={asked ? styles.note : styles.lead}>{note}</p>}
    </section>
  );
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

function FocusChoice({ wanted, focus, setFocus }: Pick<Props, "wanted" | "focus" | "setFocus">) {
  return (
    <label className={styles.focus}>
      <span>Show</span>
      <select value={focus} onChange={(event) => setFocus(Number(event.target.value))}>
        {wanted.map((each, i) => (
          // biome-ignore lint/suspicious/noArrayIndexKey: two quantities may share a name, and their order is their identity
          <option key={i} value={i}>
            {each.name}
          </option>
        ))}
      </select>
    </label>
  );
}
