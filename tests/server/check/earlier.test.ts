import { beforeEach, describe, expect, it, vi } from "vitest";
import { triesFrom } from "../../../server/check/keptTry";
import type { PageClient } from "../support/pageClient";
import { TryRooms } from "../support/tryRooms";
import { until } from "../support/until";

vi.setConfig({ testTimeout: 60_000, hookTimeout: 120_000 });

// The demo board: Iy is 60 mA of V1, −20 mA of I1 and −15 mA of V2, 25 mA in all.

const rooms = new TryRooms({ tryRate: { burst: 20, perSecond: 0 }, helpRate: { burst: 10, perSecond: 0 } });
let hart: PageClient;
let ann: PageClient;
beforeEach(() => {
  ({ hart, ann } = rooms);
});

const at = (page: PageClient, card: string) => page.tries.find((each) => each.card === card);

describe("a total that rightly adds up what was tried at the other cards", () => {
  it("follows from the one that is wrong, which alone is marked", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    await ann.tryValue("Iy", "I1", "-20 mA");
    await ann.tryValue("Iy", "V2", "-15 mA");
    // −60 − 20 − 15.
    expect(await ann.tryValue("Iy", "total", "-95 mA")).toEqual({
      outcome: "follows",
      text: expect.stringContaining("the addend of V1"),
    });
    await until("the instructor is told", () => at(hart, "total") !== undefined);
    expect(at(hart, "total")).toMatchObject({ judgement: { outcome: "follows" }, help: null, count: 1 });

    await ann.tryValue("Iy", "V1", "60 mA");
    const told = () => at(ann, "total")?.judgement;
    await until("the total is told as older", () => JSON.stringify(told()).includes("add up again"));
    expect(await ann.tryValue("Iy", "total", "25 mA")).toEqual({ outcome: "right" });
  });

  it("whoever of the group tried them", async () => {
    const ben = await rooms.join({ name: "Ben" });
    await ann.tryValue("Iy", "V1", "60 mA");
    await ben.tryValue("Iy", "I1", "40 mA");
    await ben.tryValue("Iy", "V2", "-15 mA");
    expect(await ann.tryValue("Iy", "total", "85 mA")).toMatchObject({ outcome: "follows" });
  });

  it("is as wrong as any other where it does not add them up, or where one of them was for another circuit", async () => {
    for (const [card, text] of [
      ["V1", "-60 mA"],
      ["I1", "-20 mA"],
      ["V2", "-15 mA"],
    ] as const) {
      await ann.tryValue("Iy", card, text);
    }
    expect(await ann.tryValue("Iy", "total", "-96 mA")).toMatchObject({ outcome: "wrong" });
    await rooms.setValue("V2", "12 V");
    await until("V2's try is outdated", () => at(ann, "V2")?.isOutdated === true);
    expect(await ann.tryValue("Iy", "total", "-95 mA")).toMatchObject({ outcome: "wrong" });
  });

  it("stays so over a reload of the room, with when it was", async () => {
    await ann.tryValue("Iy", "V1", "-60 mA");
    await ann.tryValue("Iy", "I1", "-20 mA");
    await ann.tryValue("Iy", "V2", "-15 mA");
    await ann.tryValue("Iy", "total", "-95 mA");
    const late = await rooms.join({ name: "Lea" });
    await until("she is told", () => late.tries.length === 4);
    expect(late.tries).toEqual(ann.tries);
  });

  it("is the same for a group of sources", async () => {
    await rooms.group("V1", "V2");
    await ann.tryValue("Iy", "V1", "60 mA");
    await ann.tryValue("Iy", "V2", "15 mA");
    expect(await ann.tryValue("Iy", "V1+V2", "75 mA")).toMatchObject({ outcome: "follows" });
  });

  it("is found at the hand-in as well, whichever was entered first", async () => {
    const trying = { figures: 3, units: "demanded", judging: "whenHandedIn" } as const;
    hart.ask({ do: "setTrying", trying });
    await until("the setting is told", () => ann.state?.trying.judging === "whenHandedIn");
    await ann.tryValue("Iy", "total", "-95 mA");
    await ann.tryValue("Iy", "V1", "-60 mA");
    await ann.tryValue("Iy", "I1", "-20 mA");
    await ann.tryValue("Iy", "V2", "-15 mA");
    expect(await ann.replyTo({ do: "handIn", wanted: "Iy" })).toEqual({ outcome: "done" });
    const outcomes = Object.fromEntries(ann.tries.map(({ card, judgement }) => [card, judgement.outcome]));
    expect(outcomes).toEqual({ V1: "wrong", I1: "right", V2: "right", total: "follows" });
  });
});

it("earlier values decide between two mistakes, so that no question is put", async () => {
  // 60 + 20 − 15 by a turned sign in the sum: I1 itself was taken rightly.
  await ann.tryValue("Iy", "I1", "-20 mA");
  await ann.tryValue("Iy", "total", "65 mA");
  expect(await rooms.ask(ann, "total", 0)).toEqual({ outcome: "done" });
  await until("the first rung is there", () => at(ann, "total")?.help?.rungs.length === 1);
  expect(at(ann, "total")?.help?.question).toBeNull();
  expect(at(ann, "total")?.help?.rungs[0]?.text).toMatch(/direction of each addend/);
});

describe("what was made of the sources before decides, too", () => {
  // With V1 an open, R1 carries nothing: −200 mA · 20/(20 + 140 + 200) = −11.1 mA for I1, the same as without R1.
  const deeds = async (decisions: Readonly<Record<string, "short" | "open" | "kept">> | null): Promise<string> => {
    hart.ask({ do: "setTrying", trying: { zeroing: "asked" } });
    await until("the setting is told", () => ann.state?.trying.zeroing === "asked");
    if (decisions) expect(await ann.replyTo({ do: "tryZeroing", card: "I1", decisions })).toEqual({ outcome: "done" });
    await ann.tryValue("Iy", "I1", "-11.1 mA");
    await rooms.ask(ann, "I1", 0);
    await until("there is help", () => {
      const help = at(ann, "I1")?.help;
      return help?.question !== null || help.rungs.length > 0;
    });
    const [made] = triesFrom(await rooms.server.store.load(rooms.name));
    return made?.help?.thinkable.map(({ mistakes: [first] }) => first?.code).join(" ") ?? "";
  };

  it("with nothing made of them both mistakes are thought of", async () => {
    expect(await deeds(null)).toMatch(/voltageSourceOpened.*partDropped/);
  });

  it("with the sources zeroed rightly the zeroing is none of them", async () => {
    const found = await deeds({ V1: "short", V2: "short" });
    expect(found).toContain("partDropped");
    expect(found).not.toContain("voltageSourceOpened");
  });

  it("with V1 made an open that is the mistake", async () => {
    expect(await deeds({ V1: "open", V2: "short" })).toBe("voltageSourceOpened");
  });
});
