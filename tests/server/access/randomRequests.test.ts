import fc from "fast-check";
import { afterAll, beforeAll, expect, it } from "vitest";
import { changed, decide, hashOfKey, OPEN_ACCESS, type RoomAccess } from "../../../server/access";
import { drawingRefusal } from "../../../server/access/roomAccess";
import { MemoryDirectory } from "../../../server/history";
import type { RoomAction, RoomState, TryAction } from "../../../shared/messages";
import { INSTRUCTOR, joinPage, type PageClient } from "../support/pageClient";
import { INSTRUCTOR_KEY, startTestServer, type TestServer } from "../support/testServer";
import { until } from "../support/until";

// Three people, one of each role, ask for things and draw in a random order, each step seen through before the next. A
// model, which knows the rules and no server, says what must come of it.

let server: TestServer;
const directory = new MemoryDirectory();
beforeAll(async () => {
  const limits = { requestRate: { burst: 1000, perSecond: 0 }, joinRate: { burst: 10_000, perSecond: 0 } };
  server = await startTestServer({ directory, limits });
});
afterAll(() => server.stop());

const WHO = ["hart", "ann", "olga"] as const;
type Who = (typeof WHO)[number];
type Step =
  | { readonly by: Who; readonly does: "draw" }
  | { readonly by: Who; readonly does: "ask"; readonly action: SettingAction; readonly about: Who };

/** What is decided by the room's access alone. */
type SettingAction = Exclude<RoomAction, TryAction>;

const action: fc.Arbitrary<SettingAction> = fc.oneof(
  fc.record({ do: fc.constant("setDrawing" as const), who: fc.constantFrom("everyone", "chosen", "instructor") }),
  fc.record({ do: fc.constant("setMayDraw" as const), participant: fc.constant(""), may: fc.boolean() }),
  fc.record({ do: fc.constant("setAnswers" as const), shown: fc.boolean() }),
  fc.record({ do: fc.constant("setShown" as const), card: fc.constantFrom("V1", "total"), shown: fc.boolean() }),
  fc.record({
    do: fc.constant("showLines" as const),
    wanted: fc.constantFrom("Iy", "Vb"),
    card: fc.constantFrom("V1", "total"),
    lines: fc.constantFrom(0, 2, "all" as const),
  }),
  fc.record({ do: fc.constant("showAllLines" as const), shown: fc.boolean() }),
  fc.record({
    do: fc.constant("setTrying" as const),
    trying: fc.record({
      figures: fc.constantFrom(2, 3, "all" as const),
      units: fc.constantFrom("demanded", "assumed"),
      judging: fc.constantFrom("atOnce", "whenHandedIn"),
    }),
  }),
  fc.record({ do: fc.constant("lock" as const), locked: fc.boolean() }),
  fc.record({ do: fc.constant("keepName" as const), keep: fc.boolean() }),
  fc.record({
    do: fc.constant("renameParticipant" as const),
    participant: fc.constant(""),
    name: fc.constantFrom("Kim", "Lee", "Ann"),
  }),
) as fc.Arbitrary<SettingAction>;
const who = fc.constantFrom(...WHO);
const step: fc.Arbitrary<Step> = fc.oneof(
  { weight: 2, arbitrary: fc.record({ by: who, does: fc.constant("draw" as const) }) },
  // Mostly the instructor, so that something happens.
  {
    weight: 3,
    arbitrary: fc.record({
      by: fc.constantFrom("hart", "hart", ...WHO),
      does: fc.constant("ask" as const),
      action,
      about: who,
    }),
  },
);

/** What a page must have been told when the access is so; all three are here. */
function told(access: RoomAccess, id: string): Partial<RoomState> {
  const { members, drawing, answers, lines, trying, isLocked, isEnded } = access;
  const you = members.find((member) => member.id === id);
  return {
    you: {
      id,
      name: you?.name ?? "",
      role: you?.role ?? "observer",
      mayDraw: drawingRefusal(access, id) === null,
      isNameKept: you?.isNameKept ?? true,
    },
    participants: members.map((member) => ({
      id: member.id,
      name: member.name,
      role: member.role,
      isHere: true,
      mayDraw:
        member.role === "instructor" ||
        (member.role === "learner" && (drawing === "everyone" || (drawing === "chosen" && member.isChosen))),
    })),
    drawing,
    answers,
    lines,
    trying,
    isLocked,
    isEnded,
    tryOf: null,
  };
}

let rooms = 0;
async function threePages(): Promise<Record<Who, PageClient>> {
  const room = `room${++rooms}`;
  await directory.create(room, hashOfKey(INSTRUCTOR_KEY));
  return {
    hart: await joinPage(server.url, room, INSTRUCTOR),
    ann: await joinPage(server.url, room, { name: "Ann" }),
    olga: await joinPage(server.url, room, { name: "Olga", as: "observer" }),
  };
}

it("no change of a page that may not draw gets in, and every page is told the room as it is", async () => {
  await fc.assert(
    fc.asyncProperty(fc.array(step, { minLength: 1, maxLength: 15 }), async (steps) => {
      const pages = await threePages();
      const all = Object.values(pages);
      try {
        let access = all.reduce<RoomAccess>(
          (before, { you }) => changed(before, { do: "admit", participant: you.id, name: you.name, role: you.role }),
          OPEN_ACCESS,
        );
        const drawn: Record<string, number> = {};
        for (const [index, each] of steps.entries()) {
          const page = pages[each.by];
          if (each.does === "draw") {
            const isAllowed = drawingRefusal(access, page.you.id) === null;
            const repairs = page.repairs;
            page.board.set(`step${index}`, index);
            if (isAllowed) drawn[`step${index}`] = index;
            else await until("the page is repaired", () => page.repairs > repairs && page.provider.synced);
          } else {
            const asked =
              "participant" in each.action ? { ...each.action, participant: pages[each.about].you.id } : each.action;
            const decision = decide(access, page.you.id, asked);
            if (decision.outcome === "refused")
              expect(await page.refusalOf(asked)).toMatchObject({ why: decision.why });
            else page.ask(asked);
            if (decision.outcome === "change") access = changed(access, decision.change);
          }
          for (const other of all) {
            await until("the boards agree", () => JSON.stringify(sorted(other)) === JSON.stringify(drawn));
            const wanted = JSON.stringify(told(access, other.you.id));
            await until(`${other.you.name} is told ${wanted}`, () => JSON.stringify(other.state) === wanted);
          }
        }
      } finally {
        for (const page of all) page.leave();
      }
    }),
    { numRuns: 40 },
  );
});

/** A page's board by step, since a repaired page may have got the keys in another order. */
function sorted(page: PageClient): Record<string, unknown> {
  const entries = Object.entries(page.board.toJSON());
  return Object.fromEntries(entries.sort(([a], [b]) => Number(a.slice(4)) - Number(b.slice(4))));
}
