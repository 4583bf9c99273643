"use client";

import type { SecondMethod } from "../../shared/derive";
import type { Shown } from "../../shared/solve/report";
import { unbroken } from "../words/unbroken";
import { LineList } from "./LineList";
import type { LineTools } from "./lineTools";
import { agreementText, methodTitle } from "./methodText";
import styles from "./working.module.css";

type Props = {
  readonly methods: readonly SecondMethod[];
  /** What the addends add up to, where the total is their sum. */
  readonly sum: Shown | null;
  readonly tools: LineTools;
};

/** Other complete ways to the total, folded: each says whether it comes to the same, or why it does not apply. */
export function SecondMethods({ methods, ...rest }: Props) {
  if (methods.length === 0) return null;
  return (
    <section className={styles.more} aria-label="Other ways to the same">
      <h3>Other ways, with all sources at once</h3>
      {methods.map((method, i) => (
        // biome-ignore lint/suspicious/noArrayIndexKey: a power has each method twice, for its voltage and its current
        <Method key={i} method={method} {...rest} />
      ))}
    </section>
  );
}

function Method({ method, sum, tools }: Omit<Props, "methods"> & { readonly method: SecondMethod }) {
  const { derivation } = method;
  const title = methodTitle(method.method);
  if (derivation === null || derivation.lines.length === 0) {
    return (
      <p className={styles.noMethod}>
        <b>{title}</b> {method.reason ?? "has no lines here."}
      </p>
    );
  }
  return (
    <details className={styles.fold}>
      <summary>
        <b>{title}</b> <span data-agrees={method.agrees}>{unbroken(agreementText(method, sum))}</span>
      </summary>
      <LineList
        derivation={derivation}
        shown={derivation.lines.length}
        label={`Lines of the ${method.method}`}
        tools={tools}
        showUpTo={null}
        started={derivation.lines.length}
      />
    </details>
  );
}
