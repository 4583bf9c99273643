"use client";

import { type FormEvent, useState } from "react";
import { cardOf } from "../../shared/messages";
import { Sheet, SheetButton, sheetStyles } from "../paper";
import type { SumCard } from "./cards";
import styles from "./sum.module.css";

type Props = {
  /** The cards of the sources alone. */
  readonly sources: readonly SumCard[];
  /** The cards of groups that there are already. */
  readonly taken: readonly SumCard[];
  /** Makes a card of the sources of these names. */
  readonly add: (sources: readonly string[]) => void;
};

/** The way to a card of several sources that act together. */
export function GroupButton(props: Props) {
  return (
    <SheetButton word="Together …" className={styles.word ?? ""}>
      {(close) => <GroupSheet {...props} close={close} />}
    </SheetButton>
  );
}

function GroupSheet({ sources, taken, add, close }: Props & { readonly close: () => void }) {
  const [chosen, setChosen] = useState<ReadonlySet<string>>(new Set());
  const group = sources.map((source) => source.key).filter((name) => chosen.has(name));
  const isThere = taken.some((card) => card.key === cardOf(group));
  const fault = faultOf(group.length, sources.length, isThere);
  const turn = (name: string) => {
    const next = new Set(chosen);
    if (!next.delete(name)) next.add(name);
    setChosen(next);
  };
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (fault) return;
    add(group);
    close();
  };
  return (
    <Sheet title="Sources together" close={close}>
      <form onSubmit={submit}>
        <fieldset>
          <legend>Which sources act? All others are zeroed.</legend>
          <div>
            {sources.map(({ key, sourceValue }) => (
              <label key={key} className={sheetStyles.choice}>
                <input type="checkbox" checked={chosen.has(key)} onChange={() => turn(key)} />
                <b>{key}</b> {sourceValue}
              </label>
            ))}
          </div>
        </fieldset>
        <p id="group-fault" className={sheetStyles.soft} aria-live="polite">
          {fault ?? "Their addends stay in the sum; the card shows what the chosen ones give together."}
        </p>
        <button type="submit" aria-disabled={fault !== null} aria-describedby="group-fault">
          Make the card
        </button>
      </form>
    </Sheet>
  );
}

function faultOf(chosen: number, all: number, isThere: boolean): string | null {
  if (chosen < 2) return "Choose two or more.";
  if (chosen === all) return "All sources together are the total, which has its card already.";
  return isThere ? "These have their card already." : null;
}
