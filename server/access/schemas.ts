import { z } from "zod";
import {
  type CreateRoom,
  DECISION_CHOICES,
  DECISION_LIMIT,
  FIGURE_CHOICES,
  type JoinRoom,
  REASON_LENGTH,
  type RoomRequest,
  TRY_LENGTH,
  type Trying,
  USUAL_TRYING,
} from "../../shared/messages";
import {
  CHAPTER_TITLE_LENGTH,
  type ChapterRequest,
  type GoOn,
  type MakeLink,
  type Retention,
} from "../../shared/replay";
import { tidyName } from "./names";
import type { AccessChange, RoomAccess } from "./roomAccess";

// What comes from outside, or from the database, checked whole: no field too many, nothing longer than it may be.

const participant = z.string().min(1).max(64);
const card = z.string().min(1).max(500);
const wanted = z.string().min(1).max(200);
const lineCount = z.union([z.int().min(0).max(10_000), z.literal("all")]);
const number = z.number().min(-1e6).max(1e6);
const drawers = z.enum(["everyone", "chosen", "instructor"]);
const role = z.enum(["instructor", "learner", "observer"]);
const name = z
  .string()
  .max(1000)
  .transform((text, context) => {
    const tidy = tidyName(text);
    if (tidy !== null) return tidy;
    context.addIssue({ code: "custom", message: "a name has 1 to 40 characters" });
    return z.NEVER;
  });

const view = z.strictObject({
  card,
  wanted: z.string().max(64).nullable(),
  center: z.tuple([number, number]),
  scale: z.number().min(1e-3).max(1e3),
});

const tryingFields = {
  figures: z.literal(FIGURE_CHOICES),
  units: z.enum(["demanded", "assumed"]),
  judging: z.enum(["atOnce", "whenHandedIn"]),
  zeroing: z.enum(["drawn", "asked"]),
};
const trying: z.ZodType<Trying> = z.strictObject({
  ...tryingFields,
  // What was stored before this could be asked did not ask it.
  zeroing: tryingFields.zeroing.default("drawn"),
});
const partOfTrying = z.strictObject({
  figures: tryingFields.figures.exactOptional(),
  units: tryingFields.units.exactOptional(),
  judging: tryingFields.judging.exactOptional(),
  zeroing: tryingFields.zeroing.exactOptional(),
});

const settings = [
  z.strictObject({ do: z.literal("setDrawing"), who: drawers }),
  z.strictObject({ do: z.literal("setMayDraw"), participant, may: z.boolean() }),
  z.strictObject({ do: z.literal("setAnswers"), shown: z.boolean() }),
  z.strictObject({ do: z.literal("setShown"), card, shown: z.boolean() }),
  z.strictObject({ do: z.literal("renameParticipant"), participant, name }),
  z.strictObject({ do: z.literal("removeParticipant"), participant }),
  z.strictObject({ do: z.literal("lock"), locked: z.boolean() }),
  z.strictObject({ do: z.literal("end") }),
  z.strictObject({ do: z.literal("showAllLines"), shown: z.boolean() }),
  z.strictObject({ do: z.literal("setTrying"), trying: partOfTrying }),
] as const;
const showLines = z.strictObject({ do: z.literal("showLines"), wanted, card, lines: lineCount });
const tryValue = z.strictObject({ do: z.literal("tryValue"), wanted, card, text: z.string().max(TRY_LENGTH) });
const keepName = z.strictObject({ do: z.literal("keepName"), keep: z.boolean() });
const meant = { wanted, card, count: z.int().min(1) };
const askHelp = z.strictObject({ do: z.literal("askHelp"), ...meant, given: z.int().min(0).max(10) });
const choice = z.union([z.literal(0), z.literal(1), z.literal("neither")]);
const answerQuestion = z.strictObject({ do: z.literal("answerQuestion"), ...meant, choice });
const reason = z
  .string()
  .max(REASON_LENGTH)
  .transform((text) => text.replace(/\s+/g, " ").trim())
  .pipe(z.string().min(1, "a reason has at least one character"));
const giveReason = z.strictObject({ do: z.literal("giveReason"), ...meant, text: reason });
const decisions = z
  .record(z.string().min(1).max(200), z.enum(DECISION_CHOICES))
  .refine((made) => Object.keys(made).length <= DECISION_LIMIT, `at most ${DECISION_LIMIT} sources are decided on`);
const tryZeroing = z.strictObject({ do: z.literal("tryZeroing"), card, decisions });
const tryLine = z.strictObject({ do: z.literal("tryLine"), card, text: z.string().max(TRY_LENGTH) });
const step = { step: z.enum(["zeroing", "line"]), card, count: z.int().min(1) };
const askStepHelp = z.strictObject({ do: z.literal("askStepHelp"), ...step, given: z.int().min(0).max(10) });
const giveStepReason = z.strictObject({ do: z.literal("giveStepReason"), ...step, text: reason });
const handIn = z.strictObject({ do: z.literal("handIn"), wanted });
const beginAgain = z.strictObject({ do: z.literal("beginAgain") });
const call = z.strictObject({ do: z.literal("comeToMe"), view });

const id = z.int().min(0);
const withId = <T extends z.ZodRawShape>(action: z.ZodObject<T, z.core.$strict>) => action.extend({ id });

export const requestSchema: z.ZodType<RoomRequest> = z.discriminatedUnion("do", [
  withId(settings[0]),
  withId(settings[1]),
  withId(settings[2]),
  withId(settings[3]),
  withId(settings[4]),
  withId(settings[5]),
  withId(settings[6]),
  withId(settings[7]),
  withId(settings[8]),
  withId(settings[9]),
  withId(showLines),
  withId(tryValue),
  withId(keepName),
  withId(askHelp),
  withId(answerQuestion),
  withId(giveReason),
  withId(handIn),
  withId(tryZeroing),
  withId(tryLine),
  withId(askStepHelp),
  withId(giveStepReason),
  withId(call),
  withId(beginAgain),
]);

export const changeSchema: z.ZodType<AccessChange> = z.discriminatedUnion("do", [
  z.strictObject({ do: z.literal("admit"), participant, name, role }),
  ...settings,
  showLines.extend({ reveals: z.array(card) }),
  keepName.extend({ participant }),
]);

const storedAccessSchema = z.strictObject({
  members: z.array(
    z.strictObject({
      id: participant,
      name,
      role,
      isChosen: z.boolean(),
      isRemoved: z.boolean(),
      // Members that were stored before anybody could ask are kept by name.
      isNameKept: z.boolean().default(true),
    }),
  ),
  drawing: drawers,
  answers: z.strictObject({ shown: z.boolean(), except: z.array(card) }),
  // Settings that were stored before there were worked lines have none.
  lines: z
    .strictObject({ shown: z.boolean(), except: z.array(z.strictObject({ wanted, card, lines: lineCount })) })
    .default(() => ({ shown: false, except: [] })),
  // Nor have those from before they could be set how tries are judged.
  trying: trying.default(USUAL_TRYING),
  isLocked: z.boolean(),
  isEnded: z.boolean(),
  // Stored beside the access, and read where they belong.
  tries: z.unknown().optional(),
  steps: z.unknown().optional(),
});

export const accessSchema: z.ZodType<RoomAccess> = storedAccessSchema.transform(
  ({ tries: _tries, steps: _steps, ...access }) => access,
);

export const createRoomSchema: z.ZodType<CreateRoom> = z.strictObject({
  name,
  from: z.discriminatedUnion("kind", [
    z.strictObject({ kind: z.literal("blank") }),
    z.strictObject({ kind: z.literal("example"), id: z.string().max(64) }),
    z.strictObject({ kind: z.literal("file"), file: z.unknown() }),
  ]),
});

export const joinRoomSchema: z.ZodType<JoinRoom> = z.strictObject({
  name,
  key: z.string().max(64).exactOptional(),
  as: z.enum(["learner", "observer"]).exactOptional(),
  keepName: z.boolean().exactOptional(),
});

const chapterTitle = z.string().trim().min(1).max(CHAPTER_TITLE_LENGTH);
const chapterId = z.string().min(1).max(64);
const moment = z.int().min(0);
const time = z.int().min(0).max(8.64e15);

export const chapterRequestSchema: z.ZodType<ChapterRequest> = z.discriminatedUnion("do", [
  z.strictObject({ do: z.literal("add"), at: moment, title: chapterTitle }),
  z.strictObject({ do: z.literal("rename"), id: chapterId, title: chapterTitle }),
  z.strictObject({ do: z.literal("remove"), id: chapterId }),
]);

/** The name by which somebody comes into a room, tidied. */
export const nameSchema: z.ZodType<string> = name;

export const goOnSchema: z.ZodType<GoOn> = z.strictObject({ at: moment, name });

export const makeLinkSchema: z.ZodType<MakeLink> = z.strictObject({ until: time.nullable() });

export const retentionSchema: z.ZodType<Retention> = z.discriminatedUnion("keep", [
  z.strictObject({ keep: z.literal("forever") }),
  z.strictObject({ keep: z.literal("days"), days: z.int().min(1).max(3650) }),
  z.strictObject({ keep: z.literal("until"), until: time }),
]);

/** What begins one's own try of a room's problem: nothing is said but that. */
export const openTrySchema: z.ZodType<object> = z.strictObject({});

/** The first fault of a value as one sentence that names its place: `"from.kind": Invalid input`. */
export function faultText(error: z.ZodError, whole: string): string {
  const [issue] = error.issues;
  const place = issue?.path.map(String).join(".");
  return `${place ? `"${place}" of the ${whole}` : `The ${whole}`} is not as it should be: ${issue?.message ?? ""}.`;
}
