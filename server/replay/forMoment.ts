import type { Outdated, ReplayAnswers, ReplayManifest, ReplayWorkings } from "../../shared/replay";
import { lastPlayed, timeOf } from "../../shared/replay";
import type { Report } from "../../shared/solve";
import { cutWorkings, hideAnswers, type RoomAccess, wholeWorkings } from "../access";
import { foundIn, isTryOutdated, StepKeys, timesOf, toldJudgement } from "../check";
import type { DerivedWorkings, SolvedAnswers } from "../solver";
import type { RoomReplay } from "./roomReplay";
import { shownAt, type Viewer } from "./viewer";

/** What a viewer is told of a replay before it is played. `now` is the access that counts now. */
export function manifestOf(
  replay: RoomReplay,
  viewer: Viewer,
  now: RoomAccess,
  title: string,
  snapshots: readonly number[],
): ReplayManifest {
  const { room, length, timeline, chapters, persons } = replay;
  const participants = persons.list(now);
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
      mayGoOn: viewer.mayGoOn,
      mayManage: viewer.as === "instructor",
    },
  };
}

/** The answers to a moment, without what the viewer could not see then. `now` is the access that counts now. */
export function answersFor(
  replay: RoomReplay,
  viewer: Viewer,
  at: number,
  now: RoomAccess,
  solved: SolvedAnswers,
): ReplayAnswers {
  const { report } = solved;
  const outdated = outdatedAt(replay, at, report);
  if (!report || viewer.as === "instructor") {
    return { at, answers: { ...solved, report: report && whole(report) }, outdated };
  }
  const { isShown } = showingOf(replay, at, now);
  const isFound = replay.isTry ? foundIn(report, replay.triesAt(at)) : () => false;
  return { at, answers: { ...solved, report: hideAnswers(report, isShown, isFound) }, outdated };
}

/** What of all that was tried before a moment was judged by another circuit than that of the moment. */
function outdatedAt(replay: RoomReplay, at: number, report: Report | null): Outdated {
  const keys = new StepKeys(report);
  const all = replay.triesAt(at);
  const tries = all.filter((made) => isTryOutdated(report, made));
  const steps = replay.stepsAt(at).filter((made) => keys.isOutdated(made));
  return {
    tries: tries.map(({ wanted, card, count }) => ({ wanted, card, count })),
    steps: steps.map(({ step, card, count }) => ({ step, card, count })),
    retold: all.flatMap((made) => {
      const { wanted, card, count } = made;
      const judgement = toldJudgement(made, timesOf(all, made));
      // Where it was neither of the mistakes that were asked about, something is told of the value that was not at first.
      const isOther =
        made.help?.thinkable.length === 0 || JSON.stringify(judgement) !== JSON.stringify(toldJudgement(made));
      return isOther ? { wanted, card, count, judgement } : [];
    }),
  };
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

const whole = (report: Report) => hideAnswers(report, () => true);

function showingOf(replay: RoomReplay, at: number, now: RoomAccess) {
  return shownAt(replay.accessAt(at), now, replay.hadAudience(at));
}
