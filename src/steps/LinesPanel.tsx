"use client";

import { type FormEvent, type ReactNode, useId, useMemo, useRef, useState } from "react";
import { entryProblemText } from "../../shared/check/entryProblemText";
import { type LineTry, type TryReply, tryRefusalText } from "../../shared/messages";
import { useMathSetter } from "../math";
import type { HelpActs } from "../sum";
import { EntryInput } from "../sum/EntryInput";
import { HelpView, type Light } from "../sum/HelpView";
import { Mark } from "../sum/Mark";
import { isOutOfReach } from "../sum/tryWords";
import { useReturn } from "../sum/useReturn";
import { lineLatex } from "./lineLatex";
import { lineSaid } from "./lineWords";
import styles from "./steps.module.css";

/** A line as its panel shows it. */
export type ShownLine = {
  readonly line: LineTry;
  /** `You` or a name. */
  readonly who: string;
  readonly help: HelpActs | null;
};

export type LinesPanelProps = {
  readonly title: string;
  readonly lines: readonly ShownLine[];
  /** Null for those who only look. */
  readonly write: ((text: string) => Promise<TryReply>) | null;
  /** Whether the room is there to judge it. */
  readonly isReached: boolean;
  readonly light: Light;
  readonly sketch: ReactNode;
};

/** Lines of people's own about the open card's circuit, and a field for one more. */
export default function LinesPanel({ title, lines, write, isReached, light, sketch }: LinesPanelProps) {
  return (
    <section className={styles.panel} aria-label={`Lines of your own for ${title}`}>
      <ol className={styles.lines} aria-live="polite">
        {lines.map((shown) => (
          <OneLine key={shown.line.count} {...shown} light={light} sketch={sketch} />
        ))}
      </ol>
      {write && <LineField {...{ title, write, isReached }} />}
    </section>
  );
}

type OneProps = ShownLine & Pick<LinesPanelProps, "light" | "sketch">;

function OneLine({ line, who, help, light, sketch }: OneProps) {
  const { mark, text } = lineSaid(line);
  return (
    <li className={styles.line}>
      <Mark mark={mark} />
      <div>
        <p className={styles.written}>
          {who}: <LineMath text={line.text} />
        </p>
        <p className={styles.said}>{text}</p>
        {line.help && (
          <HelpView help={line.help} acts={help} title={`line ${line.count}`} light={light} sketch={sketch} />
        )}
      </div>
    </li>
  );
}

/** A line in mathematics, where it can be set; else as it was typed. */
function LineMath({ text }: { readonly text: string }) {
  const set = useMathSetter();
  const markup = useMemo(() => {
    const latex = lineLatex(text);
    return latex === null ? null : (set?.(latex, "htmlAndMathml") ?? null);
  }, [set, text]);
  if (markup === null) return <b>{text}</b>;
  // biome-ignore lint/security/noDangerouslySetInnerHtml: KaTeX escapes what it is given, and is told to trust nothing
  return <span className={styles.math} title={text} dangerouslySetInnerHTML={{ __html: markup }} />;
}

type FieldProps = Pick<LinesPanelProps, "title" | "isReached"> & {
  readonly write: NonNullable<LinesPanelProps["write"]>;
};

function LineField({ title, write, isReached }: FieldProps) {
  const id = useId();
  const field = useRef<HTMLInputElement>(null);
  const [text, setText] = useState("");
  const [reply, setReply] = useState<TryReply | null>(null);
  const [isWaiting, setWaiting] = useState(false);
  useReturn(isReached, () => setReply((now) => (now && isOutOfReach(now) ? null : now)));
  const submit = async (event: FormEvent) => {
    event.preventDefault();
    if (isWaiting || text.trim() === "") return;
    setWaiting(true);
    const said = await write(text);
    setWaiting(false);
    setReply(said);
    // What has been typed meanwhile stays.
    if (said.outcome === "done") setText((now) => (now === text ? "" : now));
    if (said.outcome === "unread" && "at" in said) field.current?.setSelectionRange(said.at, said.at);
  };
  return (
    <form className={styles.write} onSubmit={submit}>
      <label htmlFor={id}>A line of your own</label>
      <EntryInput
        ref={field}
        id={id}
        value={text}
        aria-describedby={`${id}-said`}
        aria-invalid={reply?.outcome === "unread"}
        placeholder="I_R1 = I_R2 + I_R3"
        onChange={(event) => setText(event.target.value)}
      />
      <button
        type="submit"
        className={styles.check}
        aria-label={`Check this line about ${title}`}
        aria-disabled={isWaiting}
      >
        Check
      </button>
      <p id={`${id}-said`} className={styles.said} role="status">
        {replyText(reply, text)}
      </p>
    </form>
  );
}

/** Why a line was not taken in, and near which place of it. */
function replyText(reply: TryReply | null, text: string): string {
  if (reply?.outcome === "refused") return tryRefusalText(reply.why);
  if (reply?.outcome !== "unread") return "";
  const near = "at" in reply ? text.slice(reply.at, reply.at + 12).trim() : "";
  const why = entryProblemText(reply.problem);
  return near === "" || why.includes(near) ? why : `${why} At “${near}”.`;
}
