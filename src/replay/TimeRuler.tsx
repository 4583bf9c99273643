"use client";

import { type KeyboardEvent, memo, type PointerEvent, useMemo, useRef } from "react";
import { type Chapter, chapterText, type ReplayManifest } from "../../shared/replay";
import { type Size, useSize } from "../board";
import { inkShade } from "../ink";
import type { PaperSettings } from "../settings";
import { ChapterMark } from "./ChapterMark";
import { heightOf, type Lane, lanesOf } from "./lanes";
import type { ReplayPlayer } from "./player";
import { markOf, namer } from "./replayPeople";
import { apart, marksOf, type Ruler, rulerOf, shareAt, timeAt } from "./ruler";
import styles from "./session.module.css";
import { elapsedText, lengthText, spokenElapsed } from "./times";
import { useEachTime, usePlayed } from "./usePlayer";

type Props = {
  readonly player: ReplayPlayer;
  readonly manifest: ReplayManifest;
  readonly chapters: readonly Chapter[];
  readonly paper: PaperSettings["paper"];
};

/** Lanes at most, the last of them for all others together. */
const LANES = 6;
/** Width of a column of what was done, and of a mark of time, in pixels. */
const COLUMN = 4;
const MARK = 72;
/** Width of the mark of a chapter, in pixels. */
const FLAG = 15;

/** The session along a ruled line: who did something when, its chapters, and the moment that is shown. */
export function TimeRuler({ player, manifest, chapters, paper }: Props) {
  const strip = useRef<HTMLDivElement>(null);
  const size = useSize(strip);
  const passesIdle = usePlayed(player, (state) => state.passesIdle);
  const ruler = useMemo(
    () => rulerOf(player.beginning, player.end, passesIdle ? player.idle : []),
    [player, passesIdle],
  );
  const nameOf = useMemo(() => namer(manifest.participants), [manifest]);
  const columns = Math.max(1, Math.floor(size.width / COLUMN));
  const lanes = useMemo(
    () => lanesOf(player.timeline, ruler, manifest.participants, columns, LANES),
    [player, ruler, manifest, columns],
  );
  return (
    <div className={styles.ruler} style={{ "--lanes": lanes.length } as React.CSSProperties}>
      <LaneNames lanes={lanes} paper={paper} />
      <Strip {...{ strip, player, ruler, chapters, nameOf, size }}>
        <Lanes lanes={lanes} columns={columns} paper={paper} />
        <Folds ruler={ruler} />
        <Marks ruler={ruler} size={size} />
      </Strip>
    </div>
  );
}

function LaneNames({ lanes, paper }: { readonly lanes: readonly Lane[] } & Pick<Props, "paper">) {
  return (
    <ul className={styles.laneNames} aria-label="Who did something">
      {lanes.map(({ people }) => {
        const [person, ...others] = people;
        if (!person) return null;
        const mark = markOf(person);
        const names = people.map(({ name }) => name).join(", ");
        return (
          <li key={person.number} title={names} style={{ color: inkShade(mark.colour, paper) }}>
            <span aria-hidden="true">{others.length === 0 ? mark.sign : "+"}</span>
            <span>{others.length === 0 ? person.name : `${people.length} others`}</span>
          </li>
        );
      })}
    </ul>
  );
}

type StripProps = Pick<Props, "player" | "chapters"> & {
  readonly strip: React.RefObject<HTMLDivElement | null>;
  readonly ruler: Ruler;
  readonly nameOf: (participant: number) => string;
  readonly size: Size;
  readonly children: React.ReactNode;
};

/** Where the session is gone through by pointer and keyboard. */
function Strip({ strip, player, ruler, chapters, nameOf, size, children }: StripProps) {
  const now = useRef<HTMLDivElement>(null);
  const seconds = usePlayed(player, ({ time }) => Math.floor((time - player.beginning) / 1000));
  const at = usePlayed(player, (state) => state.at);
  useEachTime(player, ({ time }) => {
    if (now.current) now.current.style.left = `${shareAt(ruler, time) * 100}%`;
  });
  const go = (event: PointerEvent) => {
    const box = strip.current?.getBoundingClientRect();
    if (box) player.goToTime(timeAt(ruler, (event.clientX - box.left) / box.width));
  };
  const wasPlaying = useRef(false);
  const chapter = chapters.findLast(({ sequence }) => sequence <= at);
  const said = chapter ? `, ${chapterText(chapter, nameOf)}` : "";
  return (
    <div
      ref={strip}
      className={styles.strip}
      role="slider"
      tabIndex={0}
      aria-label="Moment of the session"
      aria-valuemin={0}
      aria-valuemax={Math.max(0, Math.floor((player.end - player.beginning) / 1000))}
      aria-valuenow={seconds}
      aria-valuetext={`${spokenElapsed(seconds * 1000)}${said}`}
      data-at={at}
      onPointerDown={(event) => {
        if (event.button !== 0) return;
        event.currentTarget.setPointerCapture(event.pointerId);
        wasPlaying.current = player.getState().isPlaying;
        player.pause();
        go(event);
      }}
      onPointerMove={(event) => {
        if (event.currentTarget.hasPointerCapture(event.pointerId)) go(event);
      }}
      onPointerUp={() => {
        if (wasPlaying.current) player.play();
        wasPlaying.current = false;
      }}
      onKeyDown={stepOnKey(player)}
    >
      {children}
      <Flags {...{ chapters, player, ruler, nameOf, size }} />
      <div ref={now} className={styles.now} />
    </div>
  );
}

/** Up and down go through the edits as well, as people try on a slider; all other keys are the page's. */
function stepOnKey(player: ReplayPlayer) {
  return (event: KeyboardEvent) => {
    if (event.key !== "ArrowUp" && event.key !== "ArrowDown") return;
    event.preventDefault();
    player.stepEdit(event.key === "ArrowUp" ? 1 : -1);
  };
}

type LanesProps = { readonly lanes: readonly Lane[]; readonly columns: number } & Pick<Props, "paper">;

/** One stroke of ink a column, the higher the more was done. */
const Lanes = memo(function Lanes({ lanes, columns, paper }: LanesProps) {
  const highest = Math.max(1, ...lanes.flatMap(({ counts }) => counts));
  return (
    <div className={styles.lanes} aria-hidden="true">
      {lanes.map(({ people: [person], counts }) => (
        <svg
          key={person?.number}
          viewBox={`0 0 ${columns} 1`}
          preserveAspectRatio="none"
          aria-hidden="true"
          focusable="false"
        >
          <path
            d={counts
              .map((count, i) => (count > 0 ? `M${i + 0.5} 1V${1 - heightOf(count, highest) * 0.9}` : ""))
              .join("")}
            stroke={person ? inkShade(markOf(person).colour, paper) : "currentColor"}
            strokeWidth={2.4}
            vectorEffect="non-scaling-stroke"
          />
        </svg>
      ))}
    </div>
  );
});

const Folds = memo(function Folds({ ruler }: { readonly ruler: Ruler }) {
  return ruler.pieces
    .filter(({ isFold }) => isFold)
    .map(({ start, end, from, to }) => (
      <div
        key={start}
        className={styles.fold}
        title={`${lengthText(to - from)} in which nothing happened`}
        style={{ left: `${start * 100}%`, width: `${(end - start) * 100}%` }}
      />
    ));
});

const Marks = memo(function Marks({ ruler, size }: { readonly ruler: Ruler; readonly size: Size }) {
  if (size.width === 0) return null;
  return (
    <div className={styles.marks} aria-hidden="true">
      {marksOf(ruler, MARK / size.width).map(({ share, elapsed }) => (
        <span key={elapsed} style={{ left: `${share * 100}%` }}>
          {elapsedText(elapsed)}
        </span>
      ))}
    </div>
  );
});

type FlagsProps = Pick<StripProps, "player" | "chapters" | "ruler" | "nameOf" | "size">;

/** Where chapters begin, as far as there is room for their marks. The list of chapters has all of them. */
const Flags = memo(function Flags({ chapters, player, ruler, nameOf, size }: FlagsProps) {
  const placed = chapters.map((chapter) => ({ chapter, share: shareAt(ruler, player.timeOf(chapter.sequence)) }));
  return (
    <div className={styles.flags} aria-hidden="true">
      {apart(placed, FLAG / Math.max(1, size.width)).map(({ chapter, share }) => (
        <span key={chapter.id} title={chapterText(chapter, nameOf)} style={{ left: `${share * 100}%` }}>
          <ChapterMark code={chapter.subject.code} />
        </span>
      ))}
    </div>
  );
});
