import { afterEach, expect, it, vi } from "vitest";
import { CheckThread } from "../../../server/check";
import { USUAL_RULES } from "../../../shared/check";

vi.setConfig({ testTimeout: 120_000 });

const warnings: string[] = [];
let thread: CheckThread;

function start(budget: number): void {
  warnings.length = 0;
  const job = new URL("./timedCheck.ts", import.meta.url);
  thread = new CheckThread({ log: { warn: (text) => warnings.push(text) }, budget, job });
}

const check = (text: string) =>
  thread.check({
    key: "a 1",
    board: new Uint8Array(),
    wanted: "Iy",
    card: "V1",
    text,
    rules: USUAL_RULES,
    earlier: [],
    zeroing: null,
  });
const right = (text: string) => ({
  outcome: "judged",
  judgement: { outcome: "right" },
  answer: text,
  explanations: [],
  follows: [],
});

afterEach(() => thread.close());

it("judges one entry after the other, in the order in which they come", async () => {
  start(20_000);
  const order: string[] = [];
  const texts = ["20", "0", "5"];
  const checked = texts.map(async (text) => {
    const result = await check(text);
    order.push(text);
    return result;
  });
  expect(await Promise.all(checked)).toEqual(texts.map(right));
  expect(order).toEqual(texts);
});

it("gives an entry up that takes too long, and goes on with the next", async () => {
  start(300);
  const [endless, next] = await Promise.all([check("forever"), check("0")]);
  expect(endless).toEqual({ outcome: "refused", why: "tooSlow" });
  expect(next).toEqual(right("0"));
  expect(warnings).toEqual(["the thread that judges entries was ended: an entry took too long to judge"]);
});

it("says that an entry failed, where judging throws or ends the thread, and goes on", async () => {
  start(20_000);
  expect(await check("throw")).toEqual({ outcome: "refused", why: "failed" });
  expect(await check("exit")).toEqual({ outcome: "refused", why: "failed" });
  expect(await check("0")).toEqual(right("0"));
  expect(warnings).toEqual([
    "judging an entry failed: this entry breaks the check",
    "the thread that judges entries was ended: the thread ended",
  ]);
});

it("says what is certain of an entry whose explanation takes too long or fails", async () => {
  start(300);
  const [endless, next] = await Promise.all([check("certain forever"), check("0")]);
  expect(endless).toEqual(right("certain"));
  expect(next).toEqual(right("0"));
  // This board is known by now as one whose explanations take too long.
  expect(await check("certain unless told forever")).toEqual(right("told"));
  expect(await check("certain throw")).toEqual(right("certain"));
  expect(await check("throw")).toEqual({ outcome: "refused", why: "failed" });
});

it("tells those who come when too many wait to come again, and everybody when it is closed", async () => {
  start(20_000);
  const waiting = Array.from({ length: 200 }, () => check("0"));
  expect(await check("0")).toEqual({ outcome: "refused", why: "busy" });
  expect(await Promise.all(waiting)).toEqual(waiting.map(() => right("0")));
  const last = check("forever");
  await thread.close();
  expect(await last).toEqual({ outcome: "refused", why: "busy" });
  expect(await check("0")).toEqual({ outcome: "refused", why: "busy" });
});
