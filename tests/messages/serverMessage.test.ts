import fc from "fast-check";
import * as decoding from "lib0/decoding";
import { describe, expect, it } from "vitest";
import {
  type Answers,
  MESSAGE_ANSWERS,
  MESSAGE_NOTICE,
  type Notice,
  noticeText,
  readAnswers,
  readNotice,
  solverFailureText,
  writeAnswers,
  writeNotice,
} from "../../shared/messages";

/** What JSON can carry: a bigint in any of its parts would make writing it throw. */
type Json = string | number | boolean | null | readonly Json[] | { readonly [key: string]: Json };

function decoderBehindType(frame: Uint8Array, type: number): decoding.Decoder {
  const decoder = decoding.createDecoder(frame);
  expect(decoding.readVarUint(decoder)).toBe(type);
  return decoder;
}

const failures = fc.oneof(
  fc.constant(null),
  fc.record({ code: fc.constant("overBudget" as const), milliseconds: fc.nat() }),
  fc.record({ code: fc.constant("failed" as const), message: fc.string({ unit: "grapheme" }) }),
);

describe("messages of our own", () => {
  it("answers are read as they were written, to the last byte", () => {
    fc.assert(
      fc.property(fc.nat(), failures, (revision, failure) => {
        const answers: Answers = { revision, report: null, boardProblems: [], failure };
        const decoder = decoderBehindType(writeAnswers(answers), MESSAGE_ANSWERS);
        const carried: Json = answers;
        expect(readAnswers(decoder)).toEqual(carried);
        expect(decoding.hasContent(decoder)).toBe(false);
      }),
    );
  });

  it.each<Notice>([{ code: "notStoring", reason: "Datenträger voll" }, { code: "storingAgain" }])(
    "the notice $code is read as it was written",
    (notice) => {
      const decoder = decoderBehindType(writeNotice(notice), MESSAGE_NOTICE);
      const carried: Json = notice;
      expect(readNotice(decoder)).toEqual(carried);
      expect(decoding.hasContent(decoder)).toBe(false);
    },
  );

  it("have numbers that y-protocols doesn't use", () => {
    // y-protocols and y-websocket: sync 0, awareness 1, auth 2, query awareness 3.
    expect(Math.min(MESSAGE_ANSWERS, MESSAGE_NOTICE)).toBeGreaterThan(3);
    expect(MESSAGE_ANSWERS).not.toBe(MESSAGE_NOTICE);
  });
});

describe("sentences", () => {
  it("say what is the matter with saving", () => {
    expect(noticeText({ code: "notStoring", reason: "disk full" })).toBe(
      "Changes can't be saved at the moment (disk full). They stay on this page and reach the others once saving works again.",
    );
    expect(noticeText({ code: "storingAgain" })).toBe("Changes are saved again.");
  });

  it("say why there are no answers", () => {
    expect(solverFailureText({ code: "overBudget", milliseconds: 2000 })).toBe(
      "Solving this circuit took more than 2 s and was ended. A smaller circuit, or fewer sources, can be solved.",
    );
    expect(solverFailureText({ code: "failed", message: "a pivot is missing" })).toBe(
      "The solver failed on this circuit (a pivot is missing). The drawing is safe; this is a defect of the solver.",
    );
  });
});
