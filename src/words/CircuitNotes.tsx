"use client";

import { useMemo } from "react";
import type { Board, BoardCircuit, EntryId } from "../../shared/board";
import type { NodeReport, PartReport } from "../../shared/solve/report";
import { circuitWords } from "./circuitWords";
import styles from "./notes.module.css";
import type { ShownProblem } from "./problems";
import { unbroken } from "./unbroken";

type ValuesProps = {
  /** Which circuit the values belong to: "all sources", "V1 alone". */
  readonly title: string;
  readonly nodes: readonly NodeReport[];
  readonly parts: readonly PartReport[];
  readonly isHidden: boolean;
};

/** Node voltages and branch currents of the circuit that is shown. */
export function CircuitValues({ title, nodes, parts, isHidden }: ValuesProps) {
  if (isHidden) {
    return (
      <section className={styles.section} aria-label={`Values with ${title}`}>
        <h2>Values with {title}</h2>
        <p>Hidden until the instructor reveals them.</p>
      </section>
    );
  }
  if (nodes.length === 0) return null;
  return (
    <section className={styles.section} aria-label={`Values with ${title}`}>
      <h2>Values with {title}</h2>
      <table className={styles.values}>
        <caption>Node voltages, to the reference node</caption>
        <tbody>
          {nodes.map(({ node, voltage }) => (
            <tr key={node}>
              <th scope="row">{node}</th>
              <td>{voltage ? `${voltage.mark} ${voltage.text}` : "none"}</td>
            </tr>
          ))}
        </tbody>
      </table>
      <table className={styles.values}>
        <caption>Branch currents</caption>
        <tbody>
          {parts.map(({ branch, plus, minus, current }) => (
            <tr key={branch}>
              <th scope="row">
                {branch} <small>{`${plus} to ${minus}`}</small>
              </th>
              <td>{current ? `${current.mark} ${current.text}` : "none"}</td>
            </tr>
          ))}
        </tbody>
      </table>
    </section>
  );
}

type ProblemsProps = {
  readonly problems: readonly ShownProblem[];
  /** Shows a problem's symbol; null where nothing can be chosen. */
  readonly choose: ((entry: EntryId) => void) | null;
};

/** What is to be mended, and what is only said; each leads to its symbol. */
export function ProblemList({ problems, choose }: ProblemsProps) {
  const faults = problems.filter((problem) => problem.severity === "fault");
  const notices = problems.filter((problem) => problem.severity === "notice");
  return (
    <div role="status">
      {faults.length > 0 && (
        <section className={styles.faults} aria-label="To mend">
          <h2>To mend</h2>
          <ProblemItems problems={faults} choose={choose} />
        </section>
      )}
      {notices.length > 0 && (
        <section className={styles.section} aria-label="Worth knowing">
          <h2>Worth knowing</h2>
          <ProblemItems problems={notices} choose={choose} />
        </section>
      )}
    </div>
  );
}

function ProblemItems({ problems, choose }: ProblemsProps) {
  return (
    <ul className={styles.problems}>
      {problems.map(({ key, text, entries: [first] }) => (
        <li key={key}>
          {unbroken(text)}{" "}
          {first && choose && (
            <button type="button" onClick={() => choose(first)}>
              Show
            </button>
          )}
        </li>
      ))}
    </ul>
  );
}

type WordsProps = {
  readonly board: Board;
  readonly circuit: BoardCircuit;
  /** Chooses a part on the board; null where nothing can be chosen. */
  readonly choose: ((entry: EntryId) => void) | null;
};

/** The circuit as text, each part a button that chooses it: for reading aloud, and for the keyboard. */
export function CircuitInWords({ board, circuit, choose }: WordsProps) {
  const words = useMemo(() => circuitWords(board, circuit), [board, circuit]);
  return (
    <section className={styles.section} aria-label="The circuit in words">
      <h2>The circuit in words</h2>
      {words.length === 0 && <p>Nothing is drawn yet.</p>}
      <ul className={styles.words}>
        {words.map(({ entry, name, text }) => (
          <li key={entry}>
            {choose ? (
              <button type="button" onClick={() => choose(entry)}>
                {name}
              </button>
            ) : (
              <b>{name}</b>
            )}
            <span>{unbroken(text)}</span>
          </li>
        ))}
      </ul>
    </section>
  );
}
