import type { ReplayAnswers, ReplayManifest, ReplayWorkings } from "../../shared/replay";
import { lastPlayed, timeOf } from "../../shared/replay";
import { cutWorkings, findMember, hideAnswers, type RoomAccess, wholeWorkings } from "../access";
import type { DerivedWorkings, SolvedAnswers } from "../solver";
import type { RoomReplay } from "./roomReplay";
import { shownAt, type Viewer } from "./viewer";

/** What a viewer is told of a replay before it is played. */
export function manifestOf(
  replay: RoomReplay,
  viewer: Viewer,
  title: string,
  snapshots: readonly number[],
): ReplayManifest {
  const { room, length, timeline, chapters, persons, access } = replay;
  const participants = persons.list(access);
  const number = viewer.participant === null ? null : persons.find(viewer.participant);
  return {
    room,
    title,
    length,
    from: timeOf(timeline, 1),
    to: timeOf(timeline, lastPlayed(timeline)),
    participants,
    chapters,
    snapshots,
    viewer: {
      as: viewer.as,
      number,
      mayGoOn: mayGoOn(replay, viewer),
      mayManage: viewer.as === "instructor",
    },
  };
}

/** Whether a viewer may make a new room from a moment: who is in the room to do something, not who only looks. */
export function mayGoOn({ access }: RoomReplay, { participant }: Viewer): boolean {
  const role = participant === null ? null : findMember(access, participant)?.role;
  return role === "instructor" || role === "learner";
}

/** The answers to a moment, without what the viewer could not see then. `now` is the access that counts now. */
export function answersFor(
  replay: RoomReplay,
  viewer: Viewer,
  at: number,
  now: RoomAccess,
  solved: SolvedAnswers,
): ReplayAnswers {
  const { isShown } = showingOf(replay, at, now);
  const shows = viewer.as === "instructor" ? () => true : isShown;
  return { at, answers: { ...solved, report: solved.report && hideAnswers(solved.report, shows) } };
}

/** The worked lines of a moment, in the same way. */
export function workingsFor(
  replay: RoomReplay,
  viewer: Viewer,
  at: number,
  now: RoomAccess,
  derived: DerivedWorkings,
): ReplayWorkings {
  const showing = showingOf(replay, at, now);
  const workings = viewer.as === "instructor" ? wholeWorkings(derived, showing) : cutWorkings(derived, showing);
  return { at, workings };
}

function showingOf(replay: RoomReplay, at: number, now: RoomAccess) {
  return shownAt(replay.accessAt(at), now, replay.hadAudience(at));
}
