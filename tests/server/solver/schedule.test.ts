import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { advance, type Schedule, type ScheduleEvent, startSchedule } from "../../../server/solver/schedule";

const RULES = { slice: 100, budget: 1000 };

/** Plays events, each with its time, on lanes that are all ready at time 0; gives what is to be done at each, as text. */
function play(lanes: number, ...events: readonly (readonly [time: number, event: ScheduleEvent])[]) {
  let schedule: Schedule = startSchedule(lanes);
  for (let lane = 0; lane < lanes; lane++) schedule = advance(schedule, { type: "ready", lane }, 0, RULES).schedule;
  const told = events.map(([time, event]) => {
    const step = advance(schedule, event, time, RULES);
    schedule = step.schedule;
    return step.actions
      .map((each) => `${each.type} ${each.room}${each.type === "end" ? ` ${each.why}` : ""}`)
      .join(", ");
  });
  return { schedule, told };
}

const request = (room: string): ScheduleEvent => ({ type: "requested", room });
const finished = (lane: number): ScheduleEvent => ({ type: "finished", lane });
const LOOK: ScheduleEvent = { type: "looked" };

describe("a quick room", () => {
  it("starts at once where a lane is idle", () => {
    expect(play(2, [0, request("a")]).told).toEqual(["start a"]);
  });

  it("waits until a thread runs", () => {
    const asked = advance(startSchedule(1), request("a"), 0, RULES);
    expect(asked.actions).toEqual([]);
    expect(advance(asked.schedule, { type: "ready", lane: 0 }, 5, RULES).actions).toEqual([
      { type: "start", lane: 0, room: "a" },
    ]);
  });

  it("keeps its turn when it asks again, and is never in two lanes", () => {
    const { told } = play(
      2,
      [0, request("a")],
      [1, request("a")],
      [2, request("b")],
      [3, request("c")],
      [4, finished(0)],
    );
    expect(told).toEqual(["start a", "", "start b", "", "start a"]);
  });

  it("is not delayed beyond one slice by two rooms that take long", () => {
    const { told } = play(
      2,
      [0, request("slow1")],
      [1, request("slow2")],
      [2, request("quick")],
      [101, LOOK],
      [102, LOOK],
    );
    // slow1 may go on in the one place for slow jobs; slow2 makes way and is in line again.
    expect(told).toEqual(["start slow1", "start slow2", "", "end slow2 displaced", ""]);
    const { told: later } = play(
      2,
      [0, request("slow1")],
      [1, request("slow2")],
      [2, request("quick")],
      [101, LOOK],
      [150, { type: "ready", lane: 1 }],
      [151, finished(1)],
    );
    // slow2 waits for the place of slow1, though a lane is idle.
    expect(later.slice(-2)).toEqual(["start quick", ""]);
  });
});

describe("a slow job", () => {
  it("is ended at its budget", () => {
    expect(play(2, [0, request("a")], [999, LOOK], [1000, LOOK]).told).toEqual(["start a", "", "end a overBudget"]);
  });

  it("is not displaced while nobody waits", () => {
    expect(play(2, [0, request("a")], [0, request("b")], [500, LOOK]).told).toEqual(["start a", "start b", ""]);
  });

  it("may run where there is one lane only, and makes no second one wait for a place that isn't there", () => {
    const { told } = play(1, [0, request("a")], [500, finished(0)], [501, request("a")]);
    expect(told).toEqual(["start a", "", "start a"]);
  });

  it("is taken for quick again after a quick run", () => {
    const { schedule } = play(2, [0, request("a")], [500, finished(0)], [501, request("a")], [510, finished(0)]);
    expect([...schedule.slowRooms]).toEqual([]);
  });
});

it("wakes at the end of the budget, and at the end of the slice where somebody waits", () => {
  const alone = advance(play(1).schedule, request("a"), 10, RULES);
  expect(alone.wakeAt).toBe(1010);
  expect(advance(alone.schedule, request("b"), 20, RULES).wakeAt).toBe(110);
  expect(advance(play(1).schedule, LOOK, 10, RULES).wakeAt).toBeNull();
});

it("forgets a room that waits", () => {
  const { told } = play(
    1,
    [0, request("a")],
    [1, request("b")],
    [2, { type: "forgotten", room: "b" }],
    [3, finished(0)],
  );
  expect(told).toEqual(["start a", "", "", ""]);
});

/** Rooms that need a given time each, worked off by simulated threads that take `spawn` ms to start. */
function simulate(requests: readonly { room: number; at: number }[], needs: readonly number[], spawn: number) {
  let schedule = startSchedule(2);
  const pending = requests.map(({ room, at }) => ({ at, event: request(`r${room}`) }));
  let agenda: { at: number; event: ScheduleEvent; job?: number }[] = [
    { at: 0, event: { type: "ready", lane: 0 } },
    { at: 0, event: { type: "ready", lane: 1 } },
    ...pending,
  ];
  const running: (number | null)[] = [null, null];
  const waits: { room: string; wait: number }[] = [];
  const askedAt = new Map<string, number>();
  let jobs = 0;
  for (let steps = 0; agenda.length > 0; steps++) {
    if (steps > 20_000) throw new Error("the schedule never comes to rest");
    agenda.sort((a, b) => a.at - b.at);
    const { at, event, job } = agenda[0] as (typeof agenda)[number];
    agenda = agenda.slice(1);
    // A finish of a job that was ended meanwhile doesn't happen.
    if (job !== undefined && event.type === "finished" && running[event.lane] !== job) continue;
    if (event.type === "requested" && !askedAt.has(event.room)) askedAt.set(event.room, at);
    const step = advance(schedule, event, at, RULES);
    schedule = step.schedule;
    for (const action of step.actions) {
      if (action.type === "end") {
        running[action.lane] = null;
        agenda.push({ at: at + spawn, event: { type: "ready", lane: action.lane } });
        continue;
      }
      waits.push({ room: action.room, wait: at - (askedAt.get(action.room) ?? at) });
      askedAt.delete(action.room);
      running[action.lane] = ++jobs;
      const need = needs[Number(action.room.slice(1))] ?? 0;
      agenda.push({ at: at + need, event: { type: "finished", lane: action.lane }, job: jobs });
    }
    if (step.wakeAt !== null && !agenda.some((each) => each.event.type === "looked" && each.at <= (step.wakeAt ?? 0))) {
      agenda.push({ at: step.wakeAt, event: LOOK });
    }
  }
  return { schedule, waits };
}

it("works all requests off, and keeps quick rooms waiting for others' slices and threads only, never for a budget", () => {
  const load = fc.record({
    needs: fc.array(fc.constantFrom(1, 10, 50, 5000), { minLength: 2, maxLength: 6 }),
    requests: fc.array(fc.record({ room: fc.nat(5), at: fc.nat(3000) }), { maxLength: 30 }),
  });
  fc.assert(
    fc.property(load, ({ needs, requests }) => {
      const known = requests.filter(({ room }) => room < needs.length);
      const { schedule, waits } = simulate(known, needs, 20);
      expect(schedule.waiting).toEqual([]);
      // A room that was never slow waits for each other room's slice at most once, and for a new thread each time.
      const longest = needs.length * (RULES.slice + 20) + 100;
      for (const { room, wait } of waits) {
        if ((needs[Number(room.slice(1))] ?? 0) <= 50) expect(wait).toBeLessThanOrEqual(longest);
      }
    }),
  );
});
