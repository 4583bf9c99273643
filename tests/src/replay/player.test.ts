import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { ReplayPlayer } from "../../../src/replay/player";
import { R } from "../../board/builders";
import { BEGAN, type Happening, record, serve } from "./recorded";

/** Ten resistors, one each second; then nothing for ten minutes; then ten more. */
const resistor = (n: number, after: number): Happening => ({
  after,
  participant: 1,
  command: R(`R${n}`, "1k", [n, 0], [n, 4]),
});
const HAPPENINGS = [
  ...Array.from({ length: 10 }, (_, n) => resistor(n, 1000)),
  ...Array.from({ length: 10 }, (_, n) => resistor(n + 10, n === 0 ? 600_000 : 1000)),
];

beforeEach(() => void vi.useFakeTimers());
afterEach(() => void vi.useRealTimers());

async function opened(at = 0, most = 100) {
  const recorded = record(HAPPENINGS);
  const { source, asked } = serve(recorded, 5, most);
  const player = new ReplayPlayer(source, recorded.timeline, at);
  await settle();
  return { player, asked, parts: () => player.getState().shown.board.parts.length };
}

/** Lets all that was asked for arrive, with what waits for a little while. */
const settle = () => vi.advanceTimersByTimeAsync(1000);

describe("a session that is played", () => {
  it("opens at the moment that is asked for, and within the session whatever is asked", async () => {
    expect((await opened(4)).parts()).toBe(4);
    expect((await opened(99)).parts()).toBe(20);
  });

  it("goes on at its speed, and shows each edit when it came", async () => {
    const { player, parts } = await opened();
    player.play();
    player.tick(2500);
    await settle();
    // The first came at its beginning, the second and third a second later each.
    expect(parts()).toBe(3);
    player.setSpeed(4);
    player.tick(1000);
    expect(parts()).toBe(7);
    player.setSpeed(0.5);
    player.tick(1000);
    expect([parts(), player.getState().time - player.beginning]).toEqual([8, 7000]);
  });

  it("passes over ten minutes of nothing in one step, and tells how long they were", async () => {
    const { player, parts } = await opened(10);
    player.play();
    player.tick(16);
    await settle();
    expect(parts()).toBe(11);
    expect(player.getState().passed).toEqual({ from: BEGAN + 10_000, to: BEGAN + 610_000 });
  });

  it("lets them pass where that is asked", async () => {
    const { player, parts } = await opened(10);
    player.setPassesIdle(false);
    player.play();
    player.tick(20_000);
    await settle();
    expect([parts(), player.getState().time]).toEqual([10, BEGAN + 30_000]);
  });

  it("stands still while what comes next is fetched", async () => {
    const { player } = await opened(10, 1);
    player.goTo(19);
    player.play();
    const { time } = player.getState();
    player.tick(500);
    expect(player.getState().time).toBe(time);
    await settle();
    player.tick(500);
    expect(player.getState().time).toBe(time + 500);
  });

  it("stops at its end, and begins again from there", async () => {
    const { player, parts } = await opened(19);
    player.play();
    player.tick(60_000);
    expect([player.getState().isPlaying, player.getState().time, parts()]).toEqual([false, player.end, 20]);
    player.play();
    expect([player.getState().isPlaying, player.getState().at]).toEqual([true, 0]);
  });

  it("goes from edit to edit, and so to its ends", async () => {
    const { player, parts } = await opened(10);
    player.stepEdit(1);
    await settle();
    expect(parts()).toBe(11);
    player.stepEdit(-1);
    player.stepEdit(-1);
    expect(parts()).toBe(9);
    player.goTo(1);
    player.stepEdit(-1);
    expect([parts(), player.getState().at]).toEqual([0, 0]);
  });

  it("shows the last of many moments that are asked for at once", async () => {
    const { player, parts } = await opened(0, 2);
    for (const share of [0.9, 0.1, 0.5, 1, 0.3])
      player.goToTime(player.beginning + share * (player.end - player.beginning));
    await settle();
    // 30 % of 619 s is in the ten minutes after the tenth.
    expect(parts()).toBe(10);
  });
});

/** A session of which the server sends the beginning and then nothing more, with this refusal, until it is mended. */
async function cutOff(code: "unreachable" | "unknownRoom" = "unreachable") {
  const recorded = record(HAPPENINGS);
  const { source } = serve(recorded, 5, 2);
  const refusal = { code, text: "Nothing comes." } as const;
  let isDown = false;
  const player = new ReplayPlayer(
    {
      ...source,
      entries: async (from, to) => (isDown ? { ok: false, refusal } : source.entries(from, to)),
      answers: async (at) => (isDown ? { ok: false, refusal } : source.answers(at)),
    },
    recorded.timeline,
    2,
  );
  player.setPassesIdle(false);
  await settle();
  return { player, cut: () => (isDown = true), mend: () => (isDown = false) };
}

describe("a connection that is lost", () => {
  it("lets the session stand still and say why, and go on by itself once the server is there again", async () => {
    const { player, cut, mend } = await cutOff();
    cut();
    player.goTo(19);
    player.play();
    await settle();
    const { time } = player.getState();
    player.tick(500);
    expect(player.getState()).toMatchObject({ time, isPlaying: true, fault: "Nothing comes." });
    mend();
    await vi.advanceTimersByTimeAsync(3000);
    player.tick(500);
    expect(player.getState()).toMatchObject({ time: time + 500, isPlaying: true, fault: null });
  });

  it("is forgotten where a moment is wanted that is there", async () => {
    const { player, cut } = await cutOff();
    cut();
    player.goTo(19);
    await settle();
    expect(player.getState().fault).toBe("Nothing comes.");
    player.goTo(1);
    expect(player.getState().fault).toBeNull();
    expect(player.getState().shown.board.parts).toHaveLength(1);
  });

  it("keeps the answers of another moment in their place, as awaited, and gets those of this one later", async () => {
    const { player, cut, mend } = await cutOff();
    expect(player.getState().answers?.revision).toBe(2);
    cut();
    player.goTo(1);
    await settle();
    expect(player.getState()).toMatchObject({ answersFault: "Nothing comes.", areAnswersAwaited: true });
    expect(player.getState().answers?.revision).toBe(2);
    mend();
    await vi.advanceTimersByTimeAsync(4000);
    expect(player.getState()).toMatchObject({ answersFault: null, areAnswersAwaited: false });
    expect(player.getState().answers?.revision).toBe(1);
  });

  it("is no loss of connection where the server refuses for good: nothing is asked again, and it is not played", async () => {
    const { player, cut, mend } = await cutOff("unknownRoom");
    cut();
    player.goTo(19);
    player.play();
    await settle();
    expect(player.getState()).toMatchObject({ isPlaying: false, fault: "Nothing comes." });
    mend();
    await vi.advanceTimersByTimeAsync(10_000);
    expect(player.getState().fault).toBe("Nothing comes.");
    player.tryAgain();
    await settle();
    expect(player.getState().fault).toBeNull();
  });
});

describe("the answers to a moment", () => {
  it("are asked for once it has stood for a while, for the last change of the board before it, and once", async () => {
    const { player, asked } = await opened(3);
    asked.length = 0;
    player.goTo(5);
    player.goTo(6);
    expect(player.getState().areAnswersAwaited).toBe(true);
    await settle();
    expect(asked.filter((each) => each.startsWith("answers"))).toEqual(["answers 6"]);
    expect(player.getState().answers?.revision).toBe(6);
    expect(player.getState().areAnswersAwaited).toBe(false);
    player.goTo(3);
    player.goTo(6);
    await settle();
    expect(asked.filter((each) => each.startsWith("answers"))).toEqual(["answers 6"]);
    expect(player.getState().areAnswersAwaited).toBe(false);
  });

  it("are asked for now and then while the session is played, and not for each change", async () => {
    const { player, asked } = await opened(1);
    asked.length = 0;
    player.setSpeed(16);
    player.play();
    for (let i = 0; i < 20; i++) {
      player.tick(16);
      await vi.advanceTimersByTimeAsync(16);
    }
    expect(asked.filter((each) => each.startsWith("answers")).length).toBeLessThanOrEqual(1);
  });
});
