import fc from "fast-check";
import * as decoding from "lib0/decoding";
import { describe, expect, it } from "vitest";
import { readCircuitFile } from "../../shared/circuit";
import { powerTableOf, workingsOf } from "../../shared/derive";
import { EXAMPLES } from "../../shared/examples";
import {
  type Answers,
  type Call,
  cardOf,
  isShown,
  linesOf,
  MESSAGE_ANSWERS,
  MESSAGE_CALL,
  MESSAGE_NOTICE,
  MESSAGE_REQUEST,
  MESSAGE_ROOM,
  MESSAGE_TRIES,
  MESSAGE_WORKINGS,
  type Notice,
  noticeText,
  type RoomRequest,
  type RoomState,
  readAnswers,
  readCall,
  readNotice,
  readRoomState,
  readTries,
  readWorkings,
  type ShownLines,
  solverFailureText,
  type TriesMessage,
  tryRefusalText,
  type Workings,
  workingsFailureText,
  writeAnswers,
  writeCall,
  writeNotice,
  writeRequest,
  writeRoomState,
  writeTries,
  writeWorkings,
} from "../../shared/messages";

/** What JSON can carry: a bigint in any of its parts would make writing it throw. */
type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

function decoderBehindType(frame: Uint8Array, type: number): decoding.Decoder {
  const decoder = decoding.createDecoder(frame);
  expect(decoding.readVarUint(decoder)).toBe(type);
  return decoder;
}

/** Holds a message to being read as it was written, to the last byte. */
function expectCarried<T extends Json>(
  frame: Uint8Array,
  type: number,
  value: T,
  read: (d: decoding.Decoder) => unknown,
) {
  const decoder = decoderBehindType(frame, type);
  expect(read(decoder)).toEqual(value);
  expect(decoding.hasContent(decoder)).toBe(false);
}

const failures = fc.oneof(
  fc.constant(null),
  fc.record({ code: fc.constant("overBudget" as const), milliseconds: fc.nat() }),
  fc.record({ code: fc.constant("failed" as const), message: fc.string({ unit: "grapheme" }) }),
);

const NOTICES: readonly Notice[] = [
  { code: "notStoring", reason: "Datenträger voll" },
  { code: "storingAgain" },
  { code: "changeRefused", why: "locked" },
  { code: "requestRefused", id: 7, why: "isObserver" },
  { code: "removed" },
  { code: "ended" },
];

const STATE: RoomState = {
  you: { id: "a", name: "Änne", role: "learner", mayDraw: false, isNameKept: true },
  participants: [{ id: "a", name: "Änne", role: "learner", isHere: true, mayDraw: false }],
  drawing: "chosen",
  answers: { shown: false, except: ["V1", "total"] },
  lines: { shown: false, except: [{ wanted: "Iy", card: "V1", lines: 2 }] },
  trying: { figures: "all", units: "assumed", judging: "whenHandedIn", zeroing: "asked" },
  isLocked: true,
  isEnded: false,
  tryOf: { room: "k7m2xq", owner: "a", ownerName: "Änne" },
};

const TRIES: readonly TriesMessage[] = [
  {
    about: "room",
    tries: [
      {
        wanted: "Iy′",
        card: "V1",
        text: "−15 V/(R1 ∥ R2)",
        participant: "a",
        name: "Änne",
        time: 5,
        judgement: { outcome: "wrong", diagnosis: null },
        help: {
          rungs: [{ text: "Look at R1.", parts: ["R1"], nodes: [] }],
          hasMore: false,
          question: null,
          reason: { state: "given", name: "Änne", text: null },
        },
        count: 3,
        isOutdated: true,
      },
    ],
  },
  { about: "request", id: 4, reply: { outcome: "refused", why: "tooFast" } },
];

const CALL: Call = { from: "Prof. Hart", view: { card: "I1+V1", wanted: null, center: [-3, 4.5], scale: 0.5 } };

describe("messages of our own", () => {
  it("answers are read as they were written, to the last byte", () => {
    fc.assert(
      fc.property(fc.nat(), failures, (revision, failure) => {
        const answers: Answers = { revision, report: null, boardProblems: [], failure };
        expectCarried(writeAnswers(answers), MESSAGE_ANSWERS, answers as unknown as Json, readAnswers);
      }),
    );
  });

  it.each(NOTICES)("the notice $code is read as it was written", (notice) =>
    expectCarried(writeNotice(notice), MESSAGE_NOTICE, notice, readNotice),
  );

  it("the room and a call are read as they were written", () => {
    expectCarried(writeRoomState(STATE), MESSAGE_ROOM, STATE, readRoomState);
    expectCarried(writeCall(CALL), MESSAGE_CALL, CALL, readCall);
  });

  it("workings are read as they were written, with their powers and second methods", () => {
    for (const { json } of EXAMPLES) {
      const file = readCircuitFile(json);
      if (!file.ok) throw new Error("an example can't be read");
      const [working] = workingsOf(file.value.circuit);
      if (!working) throw new Error("an example has no working");
      const { wanted, kind, unit, secondMethods, total } = working;
      const card = { card: "total", name: null, derivation: total, shownLines: 1, lineCount: null };
      const powerTable = powerTableOf(file.value.circuit);
      const workings: Workings = {
        revision: 9,
        workings: [{ wanted, kind, unit, cards: [card], secondMethods }],
        powerTable,
        failure: null,
      };
      expectCarried(writeWorkings(workings), MESSAGE_WORKINGS, workings as unknown as Json, readWorkings);
    }
  });

  it.each(TRIES)("tries about the $about are read as they were written", (message) =>
    expectCarried(writeTries(message), MESSAGE_TRIES, message as unknown as Json, readTries),
  );

  it("a request is its number and one JSON text", () => {
    const request: RoomRequest = { id: 1, do: "setShown", card: "V1", shown: true };
    const decoder = decoderBehindType(writeRequest(request), MESSAGE_REQUEST);
    expect(JSON.parse(decoding.readVarString(decoder))).toEqual(request);
    expect(decoding.hasContent(decoder)).toBe(false);
  });

  it("have numbers that y-protocols doesn't use", () => {
    const numbers = [
      MESSAGE_ANSWERS,
      MESSAGE_NOTICE,
      MESSAGE_REQUEST,
      MESSAGE_ROOM,
      MESSAGE_CALL,
      MESSAGE_WORKINGS,
      MESSAGE_TRIES,
    ];
    // y-protocols and y-websocket: sync 0, awareness 1, auth 2, query awareness 3.
    expect(Math.min(...numbers)).toBeGreaterThan(3);
    expect(new Set(numbers).size).toBe(numbers.length);
  });
});

describe("cards", () => {
  it("are named by their sources, whatever the order", () => {
    expect(cardOf(["V1", "I1"])).toBe("I1+V1");
    expect(cardOf(["V1"])).toBe("V1");
  });

  it("are shown as all are, but for the excepted, named in any order", () => {
    const answers = { shown: true, except: ["I1+V1"] };
    expect(["V1+I1", "I1+V1", "V1", "total"].map((card) => isShown(answers, card))).toEqual([false, false, true, true]);
    expect(isShown({ shown: false, except: ["V1"] }, "V1")).toBe(true);
  });
});

describe("sentences", () => {
  it.each<[Notice, string]>([
    [
      { code: "notStoring", reason: "disk full" },
      "Changes can't be saved at the moment (disk full). They stay on this page and reach the others once saving works again.",
    ],
    [{ code: "storingAgain" }, "Changes are saved again."],
    [
      { code: "changeRefused", why: "notAllowed" },
      "You can look at this board, but not draw on it now. The last change was not taken in, and the board is shown as the room has it.",
    ],
    [
      { code: "changeRefused", why: "locked" },
      "The instructor has locked this room. The last change was not taken in, and the board is shown as the room has it.",
    ],
    [
      { code: "changeRefused", why: "ended" },
      "This room has ended. The last change was not taken in, and the board is shown as the room has it.",
    ],
    [{ code: "requestRefused", id: 1, why: "notAllowed" }, "Only the instructor can do this."],
    [{ code: "requestRefused", id: 1, why: "ended" }, "This room has ended, so nothing in it can be changed."],
    [{ code: "requestRefused", id: 1, why: "unknownParticipant" }, "That participant is not in this room any more."],
    [{ code: "requestRefused", id: 1, why: "isInstructor" }, "An instructor can always draw and can't be removed."],
    [
      { code: "requestRefused", id: 1, why: "isObserver" },
      "Observers only look. To draw, they join again as learners.",
    ],
    [
      { code: "requestRefused", id: 1, why: "tooMany" },
      "More answers or lines are shown or hidden one by one than a room keeps. Show or hide all of them first.",
    ],
    [
      { code: "requestRefused", id: 1, why: "addendsHidden" },
      "The lines of the total tell every addend, and some are hidden. Show those first.",
    ],
    [{ code: "removed" }, "The instructor has removed you from this room."],
    [{ code: "ended" }, "The instructor has ended this room. Its board can still be read."],
  ])("of %j", (notice, sentence) => expect(noticeText(notice)).toBe(sentence));

  it("say why there are no answers", () => {
    expect(solverFailureText({ code: "overBudget", milliseconds: 2000 })).toBe(
      "Solving this circuit took more than 2 s and was ended. A smaller circuit, or fewer sources, can be solved.",
    );
    expect(solverFailureText({ code: "failed", message: "a pivot is missing" })).toBe(
      "The solver failed on this circuit (a pivot is missing). The drawing is safe; this is a defect of the solver.",
    );
  });

  it("say why a try was not judged", () => {
    expect(tryRefusalText("isObserver")).toBe("Observers only look. To try an answer, join the room as a learner.");
    expect(tryRefusalText("ended")).toBe("This room has ended, so nothing more is tried in it.");
    expect(tryRefusalText("unknownCard")).toBe("This is not asked any more: the circuit has changed.");
    expect(tryRefusalText("twoOfThisName")).toBe("Two wanted quantities have this name. Rename one of them.");
    expect(tryRefusalText("noAnswer")).toBe("The circuit has no answer to compare with at the moment.");
    expect(tryRefusalText("tooFast")).toBe(
      "These were many tries in a short time. Wait a few seconds before the next one.",
    );
    expect(tryRefusalText("busy")).toBe("Many tries are being looked at. Try again in a moment.");
    expect(tryRefusalText("tooSlow")).toBe("Solving this circuit takes too long for a try to be compared with it.");
    expect(tryRefusalText("failed")).toBe(
      "This try could not be looked at, which is a defect of the program. The room is safe.",
    );
    expect(tryRefusalText("unreachable")).toBe("The room can't be reached at the moment, so nothing was tried.");
  });

  it("say why there are no worked lines", () => {
    expect(workingsFailureText({ code: "overBudget", milliseconds: 2000 })).toBe(
      "Working this circuit out line by line took more than 2 s and was ended. The answers stand.",
    );
    expect(workingsFailureText({ code: "tooLarge", bytes: 1000 })).toBe(
      "The worked lines of this circuit are too many to be sent. Ask for fewer quantities, or group fewer sources.",
    );
    expect(workingsFailureText({ code: "failed", message: "a line is missing" })).toBe(
      "The worked lines of this circuit failed (a line is missing). The answers stand; this is a defect of the program.",
    );
  });
});

describe("worked lines", () => {
  it("are shown as all are, but for the excepted, whose sources may stand in any order", () => {
    const lines: ShownLines = { shown: false, except: [{ wanted: "Iy", card: "I1+V1", lines: 2 }] };
    expect(linesOf(lines, "Iy", "V1+I1")).toBe(2);
    expect(linesOf(lines, "Ix", "I1+V1")).toBe(0);
    expect(linesOf({ ...lines, shown: true }, "Ix", "V1")).toBe("all");
    expect(linesOf({ ...lines, shown: true }, "Iy", "I1+V1")).toBe(2);
  });
});
