import { unreachable } from "../../shared/circuit";

/**
 * Who is solved for when, as a pure function of what has happened. Rooms wait in one line; a few lanes (worker threads)
 * work it off. A job may run for `slice` ms while others wait; longer ones go on in all lanes but one, so that a quick
 * job always finds a lane within one slice, and none runs longer than `budget`. A room whose last job was slow only
 * starts where slow jobs may run.
 */
export type Rules = { readonly slice: number; readonly budget: number };

export type Lane =
  /** Its thread is being started. */
  | { readonly state: "starting" }
  | { readonly state: "idle" }
  | { readonly state: "busy"; readonly room: string; readonly since: number; readonly isSlow: boolean };

export type Schedule = {
  readonly lanes: readonly Lane[];
  /** Rooms that want to be solved, each once, longest waiting first. A room may wait while it is being solved. */
  readonly waiting: readonly string[];
  readonly slowRooms: ReadonlySet<string>;
};

export type ScheduleEvent =
  | { readonly type: "requested"; readonly room: string }
  | { readonly type: "forgotten"; readonly room: string }
  /** The lane's thread is ready for its first job. */
  | { readonly type: "ready"; readonly lane: number }
  | { readonly type: "finished"; readonly lane: number }
  /** The lane's thread is gone; another is being started. */
  | { readonly type: "lost"; readonly lane: number }
  /** Time has passed. */
  | { readonly type: "looked" };

export type ScheduleAction =
  | { readonly type: "start"; readonly lane: number; readonly room: string }
  /** End the lane's thread and start another. "displaced" jobs are in line again; those over budget are not. */
  | { readonly type: "end"; readonly lane: number; readonly room: string; readonly why: "overBudget" | "displaced" };

export type Step = {
  readonly schedule: Schedule;
  readonly actions: readonly ScheduleAction[];
  /** When to look again (the clock of `now`) if nothing happens before; null where nothing runs. */
  readonly wakeAt: number | null;
};

export function startSchedule(lanes: number): Schedule {
  return { lanes: Array.from({ length: lanes }, () => ({ state: "starting" })), waiting: [], slowRooms: new Set() };
}

/** Takes an event in; `now` is in ms. */
export function advance(before: Schedule, event: ScheduleEvent, now: number, rules: Rules): Step {
  const ended = endLongJobs(takeIn(before, event, now, rules), now, rules);
  const started = startJobs(ended.schedule, now);
  return {
    schedule: started.schedule,
    actions: [...ended.actions, ...started.actions],
    wakeAt: nextLook(started.schedule, now, rules),
  };
}

function takeIn(schedule: Schedule, event: ScheduleEvent, now: number, { slice }: Rules): Schedule {
  switch (event.type) {
    case "requested":
      return { ...schedule, waiting: withRoom(schedule.waiting, event.room) };
    case "forgotten":
      return {
        ...schedule,
        waiting: schedule.waiting.filter((room) => room !== event.room),
        slowRooms: withSlow(schedule.slowRooms, event.room, false),
      };
    case "ready":
      return withLane(schedule, event.lane, { state: "idle" });
    case "finished": {
      const lane = schedule.lanes[event.lane];
      if (lane?.state !== "busy") return schedule;
      const slowRooms = withSlow(schedule.slowRooms, lane.room, now - lane.since > slice);
      return { ...withLane(schedule, event.lane, { state: "idle" }), slowRooms };
    }
    case "lost":
      return withLane(schedule, event.lane, { state: "starting" });
    case "looked":
      return schedule;
    default:
      return unreachable(event);
  }
}

function endLongJobs(before: Schedule, now: number, rules: Rules): { schedule: Schedule; actions: ScheduleAction[] } {
  let schedule = before;
  const actions: ScheduleAction[] = [];
  for (const [index, lane] of before.lanes.entries()) {
    if (lane.state !== "busy") continue;
    const { room } = lane;
    const time = now - lane.since;
    if (time >= rules.budget) {
      actions.push({ type: "end", lane: index, room, why: "overBudget" });
      schedule = withEnded(schedule, index, room);
    } else if (time >= rules.slice && !lane.isSlow && hasSlowPlace(schedule)) {
      schedule = withLane(schedule, index, { ...lane, isSlow: true });
    } else if (time >= rules.slice && !lane.isSlow && hasQuickWaiting(schedule)) {
      actions.push({ type: "end", lane: index, room, why: "displaced" });
      schedule = withEnded(schedule, index, room);
      schedule = { ...schedule, waiting: withRoom(schedule.waiting, room) };
    }
  }
  return { schedule, actions };
}

function startJobs(before: Schedule, now: number): { schedule: Schedule; actions: ScheduleAction[] } {
  let schedule = before;
  const actions: ScheduleAction[] = [];
  for (const [lane, { state }] of before.lanes.entries()) {
    if (state !== "idle") continue;
    const room = schedule.waiting.find((each) => canStart(schedule, each));
    if (room === undefined) break;
    actions.push({ type: "start", lane, room });
    const isSlow = schedule.slowRooms.has(room);
    schedule = withLane(schedule, lane, { state: "busy", room, since: now, isSlow });
    schedule = { ...schedule, waiting: schedule.waiting.filter((each) => each !== room) };
  }
  return { schedule, actions };
}

function canStart(schedule: Schedule, room: string): boolean {
  if (schedule.lanes.some((lane) => lane.state === "busy" && lane.room === room)) return false;
  return !schedule.slowRooms.has(room) || hasSlowPlace(schedule);
}

/** Whether one more slow job may run: always one lane less than there are, but one where there is only one. */
function hasSlowPlace({ lanes }: Schedule): boolean {
  const slow = lanes.filter((lane) => lane.state === "busy" && lane.isSlow).length;
  return slow < Math.max(1, lanes.length - 1);
}

function hasQuickWaiting(schedule: Schedule): boolean {
  return schedule.waiting.some((room) => !schedule.slowRooms.has(room) && canStart(schedule, room));
}

/** When the next running job comes to the end of its slice, which matters while others wait, or of its budget. */
function nextLook({ lanes, waiting }: Schedule, now: number, { slice, budget }: Rules): number | null {
  const times = lanes.flatMap((lane) => {
    if (lane.state !== "busy") return [];
    const sliceEnd = lane.since + slice;
    return !lane.isSlow && waiting.length > 0 && sliceEnd > now ? [sliceEnd] : [lane.since + budget];
  });
  return times.length > 0 ? Math.min(...times) : null;
}

function withEnded(schedule: Schedule, lane: number, room: string): Schedule {
  const slowRooms = withSlow(schedule.slowRooms, room, true);
  return { ...withLane(schedule, lane, { state: "starting" }), slowRooms };
}

function withLane(schedule: Schedule, index: number, lane: Lane): Schedule {
  return { ...schedule, lanes: schedule.lanes.map((each, at) => (at === index ? lane : each)) };
}

function withRoom(waiting: readonly string[], room: string): readonly string[] {
  return waiting.includes(room) ? waiting : [...waiting, room];
}

function withSlow(slowRooms: ReadonlySet<string>, room: string, isSlow: boolean): ReadonlySet<string> {
  const next = new Set(slowRooms);
  if (isSlow) next.add(room);
  else next.delete(room);
  return next;
}
