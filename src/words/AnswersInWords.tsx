import { Fragment } from "react";
import type { HiddenAddend, HiddenReport, HiddenWanted } from "../../shared/messages";
import { QuantityName } from "../sum/QuantityName";
import styles from "./notes.module.css";
import { unbroken } from "./unbroken";

/** Every wanted quantity with what each source gives to it and what they give together: for reading, and reading aloud. */
export function AnswersInWords({ report }: { readonly report: HiddenReport | null }) {
  if (!report || report.wanted.length === 0) return null;
  return (
    <section className={styles.section} aria-label="The answers in words">
      <h2>The answers in words</h2>
      {report.wanted.map((wanted, i) => (
        <Fragment
          // biome-ignore lint/suspicious/noArrayIndexKey: two quantities may share a name, and their order is their identity
          key={i}
        >
          <h3 className={styles.asked}>
            <QuantityName name={wanted.name} />, {wanted.description}
          </h3>
          <ul className={styles.answers}>
            {wanted.addends.map((addend) => (
              <li key={addend.sources.join("+")}>{unbroken(addendText(addend))}</li>
            ))}
            <li>{unbroken(totalText(wanted, report))}</li>
            {wanted.components.map(({ name, value }) => (
              <li key={name}>
                <QuantityName name={name} /> {value.mark} {unbroken(value.text)}
              </li>
            ))}
          </ul>
        </Fragment>
      ))}
    </section>
  );
}

/** `V1 alone gives 1 mA, which is 1/12 mS × 12 V`. */
export function addendText({ sources, value, coefficient }: HiddenAddend): string {
  const who =
    sources.length === 1
      ? `${sources[0]} alone gives`
      : `${sources.slice(0, -1).join(", ")} and ${sources.at(-1)} together give`;
  if (!value) return `${who} a value that is hidden until the instructor reveals it.`;
  return `${who} ${about(value)}${coefficient ? `, which is ${coefficient.text}` : ""}.`;
}

export function totalText({ total }: HiddenWanted, { hidden, sources }: HiddenReport): string {
  const who = sources.length === 1 ? "The one source gives" : "All sources together give";
  if (total) return `${who} ${about(total)}.`;
  return hidden.includes("total") ? "The total is hidden until the instructor reveals it." : "There is no total yet.";
}

function about({ mark, text }: { readonly mark: "=" | "≈"; readonly text: string }): string {
  return mark === "≈" ? `about ${text}` : text;
}
