"use client";

import { useEffect, useId, useState } from "react";
import { type Chapter, chapterText, type Finding, type ReplayPerson } from "../../shared/replay";
import styles from "./notes.module.css";
import type { ReplayPlayer } from "./player";
import { findChapters, findingText, type Reading, readSession } from "./search";
import { elapsedText } from "./times";

type Props = {
  readonly player: ReplayPlayer;
  readonly chapters: readonly Chapter[];
  readonly participants: readonly ReplayPerson[];
  readonly nameOf: (participant: number) => string;
  /** Shows the moment right after an entry. */
  readonly goTo: (sequence: number) => void;
};

/** Findings that are listed at most. */
const MOST = 100;

type About = "all" | "edit" | "try" | "chapter";

/** Looks for a part, a person, a mistake or words in the whole session. */
export function Find({ player, chapters, participants, nameOf, goTo }: Props) {
  const [reading, readAgain] = useReading(player);
  const [words, setWords] = useState("");
  const [person, setPerson] = useState<number | null>(null);
  const [about, setAbout] = useState<About>("all");
  const found = useFound(reading, { words, person, about, chapters, nameOf });
  const isAsked = words.trim() !== "" || person !== null;
  const said = useId();
  return (
    <section className={styles.find} aria-label="Find in the session">
      <label>
        Part, value, words or mistake
        <input
          type="search"
          value={words}
          aria-describedby={said}
          placeholder="R1, 12 V, sign …"
          onChange={(event) => setWords(event.target.value)}
        />
      </label>
      <div className={styles.findRow}>
        <label>
          By
          <select
            value={person ?? ""}
            onChange={(event) => setPerson(event.target.value === "" ? null : Number(event.target.value))}
          >
            <option value="">anybody</option>
            {participants.map(({ number, name }) => (
              <option key={number} value={number}>
                {name}
              </option>
            ))}
          </select>
        </label>
        <label>
          What
          <select value={about} onChange={(event) => setAbout(event.target.value as About)}>
            <option value="all">everything</option>
            <option value="edit">drawing and writing</option>
            <option value="try">tries</option>
            <option value="chapter">chapters</option>
          </select>
        </label>
      </div>
      <p id={said} role="status">
        {foundText(reading, isAsked, found.length)}
      </p>
      {reading?.fault && (
        <button type="button" onClick={readAgain}>
          Try again
        </button>
      )}
      <ol>
        {found.map(({ key, sequence, text }) => (
          <li key={key}>
            <button type="button" onClick={() => goTo(sequence)}>
              <time>{elapsedText(player.timeOf(sequence) - player.beginning)}</time>
              <span>{text}</span>
            </button>
          </li>
        ))}
      </ol>
    </section>
  );
}

/** The session is read once, when it is first to be searched, and again where it could not be read to its end. */
function useReading(player: ReplayPlayer): readonly [Reading | null, () => void] {
  const [reading, setReading] = useState<Reading | null>(null);
  const [tries, setTries] = useState(0);
  // biome-ignore lint/correctness/useExhaustiveDependencies: each try reads again
  useEffect(() => readSession(player, setReading), [player, tries]);
  return [reading, () => setTries(tries + 1)];
}

type Asked = Pick<Props, "chapters" | "nameOf"> & {
  readonly words: string;
  readonly person: number | null;
  readonly about: About;
};

type Found = { readonly key: string; readonly sequence: number; readonly text: string };

function useFound(reading: Reading | null, { words, person, about, chapters, nameOf }: Asked): readonly Found[] {
  const isInLog = about !== "chapter" && (words.trim() !== "" || person !== null);
  const kind = about === "edit" || about === "try" ? about : null;
  const findings = isInLog && reading ? reading.index.find({ words, participant: person, about: kind }, MOST) : [];
  const isInChapters = (about === "all" || about === "chapter") && person === null;
  const named = isInChapters ? findChapters(chapters, words, nameOf) : [];
  return [
    ...named.map((chapter) => ({
      key: `chapter ${chapter.id}`,
      sequence: chapter.sequence,
      text: `Chapter: ${chapterText(chapter, nameOf)}`,
    })),
    ...findings.map((finding) => ({ key: keyOf(finding), sequence: finding.sequence, text: line(finding, nameOf) })),
  ].sort((a, b) => a.sequence - b.sequence);
}

function keyOf({ sequence, edit, about }: Finding): string {
  return `${sequence} ${about} ${edit?.map ?? ""} ${edit?.entry ?? ""}`;
}

function line(finding: Finding, nameOf: (participant: number) => string): string {
  return `${nameOf(finding.participant)} ${findingText(finding)}`;
}

function foundText(reading: Reading | null, isAsked: boolean, count: number): string {
  if (reading?.fault) return reading.fault;
  const isWhole = reading !== null && reading.share >= 1;
  const sofar = isWhole ? "" : ` The session is being read: ${Math.floor((reading?.share ?? 0) * 100)} %.`;
  if (!isAsked) return sofar.trim();
  if (count >= MOST) return `The first ${MOST} are listed.${sofar}`;
  return `${count === 0 ? "Nothing found." : count === 1 ? "Found once." : `Found ${count} times.`}${sofar}`;
}
