"use client";

import { type FormEvent, useState } from "react";
import { CHAPTER_TITLE_LENGTH, type Chapter, type ChapterRequest, chapterText } from "../../shared/replay";
import { AskOnce } from "../access/AskOnce";
import { ChapterMark } from "./ChapterMark";
import { CHAPTER_KINDS } from "./chapterMarks";
import notesStyles from "./notes.module.css";
import type { ReplayPlayer } from "./player";
import sessionStyles from "./session.module.css";
import { elapsedText } from "./times";
import { usePlayed } from "./usePlayer";

type Props = {
  readonly player: ReplayPlayer;
  readonly chapters: readonly Chapter[];
  readonly nameOf: (participant: number) => string;
  /** Shows the moment right after an entry. */
  readonly goTo: (sequence: number) => void;
  /** Asks the server for a change, and says what came of it; null for those who may not. */
  readonly edit: ((request: ChapterRequest) => Promise<string | null>) | null;
};

/** The chapters of the session: where they begin, and, for instructors, what they are called. */
export function Chapters({ player, chapters, nameOf, goTo, edit }: Props) {
  const at = usePlayed(player, (state) => state.at);
  const [isChanging, setChanging] = useState(false);
  const [fault, setFault] = useState<string | null>(null);
  const change = edit && (async (request: ChapterRequest) => setFault(await edit(request)));
  const current = chapters.findLast(({ sequence }) => sequence <= at);
  return (
    <section className={notesStyles.chapters} aria-label="Chapters">
      {chapters.length === 0 && <p>No chapter yet: they begin where something is solved, opened, tried or shown.</p>}
      <ol>
        {chapters.map((chapter) => (
          <li key={chapter.id} data-current={chapter === current}>
            <button type="button" aria-current={chapter === current} onClick={() => goTo(chapter.sequence)}>
              <ChapterMark code={chapter.subject.code} className={notesStyles.chapterMark} />
              <span className={notesStyles.unseen}>{CHAPTER_KINDS[chapter.subject.code]}, </span>
              <time>{elapsedText(player.timeOf(chapter.sequence) - player.beginning)}</time>
              <span>{chapterText(chapter, nameOf)}</span>
            </button>
            {isChanging && change && (
              <ChangeChapter chapter={chapter} name={chapterText(chapter, nameOf)} change={change} />
            )}
          </li>
        ))}
      </ol>
      {change && (
        <>
          <AddChapter at={at} change={change} />
          {chapters.length > 0 && (
            <button type="button" aria-pressed={isChanging} onClick={() => setChanging(!isChanging)}>
              Rename or remove
            </button>
          )}
        </>
      )}
      <p role="alert" className={sessionStyles.fault}>
        {fault}
      </p>
    </section>
  );
}

type Change = (request: ChapterRequest) => Promise<void>;

function AddChapter({ at, change }: { readonly at: number; readonly change: Change }) {
  const [title, setTitle] = useState("");
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (title.trim() === "") return;
    void change({ do: "add", at, title: title.trim() });
    setTitle("");
  };
  return (
    <form className={notesStyles.chapterForm} onSubmit={submit}>
      <label>
        A chapter at the moment that is shown
        <input
          type="text"
          value={title}
          maxLength={CHAPTER_TITLE_LENGTH}
          placeholder="its name"
          onChange={(event) => setTitle(event.target.value)}
        />
      </label>
      <button type="submit">Add</button>
    </form>
  );
}

type ChangeProps = { readonly chapter: Chapter; readonly name: string; readonly change: Change };

function ChangeChapter({ chapter: { id }, name, change }: ChangeProps) {
  const [title, setTitle] = useState(name);
  const submit = (event: FormEvent) => {
    event.preventDefault();
    if (title.trim() !== "" && title !== name) void change({ do: "rename", id, title: title.trim() });
  };
  return (
    <form className={notesStyles.chapterForm} onSubmit={submit}>
      <input
        type="text"
        aria-label={`New name of “${name}”`}
        value={title}
        maxLength={CHAPTER_TITLE_LENGTH}
        onChange={(event) => setTitle(event.target.value)}
      />
      <button type="submit" aria-label={`Rename “${name}”`}>
        Rename
      </button>
      <AskOnce
        word="Remove"
        label={`Remove “${name}”`}
        question="The mark goes from the session; what happened there stays."
        yes="Remove it"
        act={() => void change({ do: "remove", id })}
      />
    </form>
  );
}
