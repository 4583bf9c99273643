"use client";

import type { ReactNode } from "react";
import type { PowerTable } from "../../shared/derive";
import { unbroken } from "../words/unbroken";
import { balanceText, contrastOf, contrastRows, doesText } from "./methodText";
import styles from "./working.module.css";

/** Power of every part with the balance, and the demonstration that powers of addends don't add. */
export function PowerNotes({ table }: { readonly table: PowerTable }) {
  const contrast = contrastOf(table);
  return (
    <section className={styles.more} aria-label="Power">
      <h3>Power</h3>
      <details className={styles.fold}>
        <summary>
          <b>Every part</b> <span>{unbroken(balanceText(table))}</span>
        </summary>
        <Scrolled label="Power of every part">
          <PartTable table={table} />
        </Scrolled>
      </details>
      {contrast && (
        <details className={styles.fold}>
          <summary>
            <b>Powers of the addends</b> <span>{contrast.title}</span>
          </summary>
          <p>{unbroken(contrast.text)}</p>
          <Scrolled label="Powers with each source alone">
            <AloneTable table={table} />
          </Scrolled>
        </details>
      )}
    </section>
  );
}

function Scrolled({ label, children }: { readonly label: string; readonly children: ReactNode }) {
  return (
    // biome-ignore lint/a11y/noNoninteractiveTabindex: what may scroll has to be reached by the keyboard
    <section className={styles.scrolled} tabIndex={0} aria-label={label}>
      {children}
    </section>
  );
}

function PartTable({ table }: { readonly table: PowerTable }) {
  return (
    <table className={styles.power}>
      <thead>
        <tr>
          <th scope="col">Part</th>
          <th scope="col">Voltage</th>
          <th scope="col">Current</th>
          <th scope="col">Power</th>
        </tr>
      </thead>
      <tbody>
        {table.rows.map((row) => (
          <tr key={row.part}>
            <th scope="row">{row.part}</th>
            <td>{row.voltage.text}</td>
            <td>{row.current.text}</td>
            <td data-does={row.does}>{doesText(row)}</td>
          </tr>
        ))}
      </tbody>
      <tfoot>
        <tr>
          <th scope="row">All</th>
          <td colSpan={3}>
            supplied {table.supplied.text} − absorbed {table.absorbed.text} = {table.difference.text}
          </td>
        </tr>
      </tfoot>
    </table>
  );
}

function AloneTable({ table }: { readonly table: PowerTable }) {
  const rows = contrastRows(table);
  const sources = rows[0]?.alone.map(({ source }) => source) ?? [];
  return (
    <table className={styles.power}>
      <thead>
        <tr>
          <th scope="col">Part</th>
          {sources.map((source) => (
            <th key={source} scope="col">
              {source} alone
            </th>
          ))}
          <th scope="col">their sum</th>
          <th scope="col">its power</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((row) => (
          <tr key={row.part}>
            <th scope="row">{row.part}</th>
            {row.alone.map(({ source, power }) => (
              <td key={source}>{power.text}</td>
            ))}
            <td>{row.sumOfAlone?.text}</td>
            <td>
              {row.doesSumAgree === false ? "≠" : "="} {row.power.text}
            </td>
          </tr>
        ))}
      </tbody>
    </table>
  );
}
