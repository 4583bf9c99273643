import { z } from "zod";
import type { EquationJudgement } from "../../../shared/check/equations";
import { DECISION_CHOICES, type Decisions, isMeantStep, TRY_LENGTH, withStep } from "../../../shared/messages";
import { ENTRY, readJson, type StoredRoom } from "../../history";
import { givenFields, type HelpGiven, personFields, rungFields } from "../keptHelp";
import type { WordedRung } from "../rungs";

/** What a room keeps of the help with a step. Rungs that were not given are sent to nobody. */
export type StepHelp = HelpGiven & {
  /** All of them, first to last. */
  readonly rungs: readonly WordedRung[];
};

type Kept = {
  readonly card: string;
  readonly participant: string;
  readonly name: string;
  /** Milliseconds since 1970. */
  readonly time: number;
  /** Of a zeroing how many were checked for its card; of a line its number there. */
  readonly count: number;
  /** Null where nothing explains it. */
  readonly help: StepHelp | null;
  /** Key of the circuit that it was judged in. */
  readonly answer: string;
};

/** A zeroing that was checked. */
export type KeptZeroing = Kept & {
  readonly step: "zeroing";
  readonly decisions: Decisions;
  readonly judgement: { readonly outcome: "right" | "wrong" };
};

/** A line that somebody wrote. */
export type KeptLine = Kept & {
  readonly step: "line";
  readonly text: string;
  readonly judgement: Exclude<EquationJudgement, { readonly outcome: "unread" }> | { readonly outcome: "entered" };
};

export type KeptStep = KeptZeroing | KeptLine;

type Event = Pick<KeptStep, "step" | "card" | "count" | "participant" | "name">;

/** What happens about a step, as the history keeps it. */
export type StepEvent =
  | (Event & WordedRung & { readonly did: "giveStepRung" })
  | (Event & { readonly did: "giveStepReason"; readonly text: string });

/** The steps after something happened about one of them; as they are where that is not kept any more. */
export function withStepEvent(steps: readonly KeptStep[], event: StepEvent): readonly KeptStep[] {
  return steps.map((each) =>
    each.help && isMeantStep(each, event) ? { ...each, help: helped(each.help, event) } : each,
  );
}

/** Whether there is something to mend. */
export function isWrong({ judgement }: KeptStep): boolean {
  return judgement.outcome === "wrong" || judgement.outcome === "false";
}

function helped(help: StepHelp, event: StepEvent): StepHelp {
  if (event.did === "giveStepRung") return { ...help, given: help.given + 1 };
  const { participant, name, text } = event;
  return { ...help, reason: { participant, name, text } };
}

// What the history gives back: written by us alone, and read no further than it is used.

const help = z.strictObject({ rungs: z.array(z.strictObject(rungFields)).min(1), ...givenFields }).nullable();
const kept = { card: z.string(), ...personFields, time: z.number(), count: z.int().min(1), help, answer: z.string() };
const ofLine = z.discriminatedUnion("outcome", [
  z.strictObject({ outcome: z.literal("true") }),
  z.strictObject({ outcome: z.literal("trueButEmpty"), why: z.enum(["identity", "givens"]) }),
  z.strictObject({
    outcome: z.literal("false"),
    diagnosis: z.looseObject({ code: z.string() }),
    taken: z.array(z.strictObject({ name: z.string(), as: z.enum(["current", "value"]), part: z.string() })).optional(),
  }),
  z.strictObject({ outcome: z.literal("entered") }),
]);

const keptStepSchema: z.ZodType<KeptStep> = z.discriminatedUnion("step", [
  z.strictObject({
    step: z.literal("zeroing"),
    ...kept,
    decisions: z.record(z.string(), z.enum(DECISION_CHOICES)),
    judgement: z.strictObject({ outcome: z.enum(["right", "wrong"]) }),
  }),
  z.strictObject({
    step: z.literal("line"),
    ...kept,
    text: z.string().max(TRY_LENGTH),
    judgement: z.custom<KeptLine["judgement"]>((value) => ofLine.safeParse(value).success),
  }),
]);

const event = { step: z.enum(["zeroing", "line"]), card: z.string(), count: z.int().min(1), ...personFields };
const stepEventSchema: z.ZodType<StepEvent> = z.discriminatedUnion("did", [
  z.strictObject({ did: z.literal("giveStepRung"), ...event, ...rungFields }),
  z.strictObject({ did: z.literal("giveStepReason"), ...event, text: z.string() }),
]);

/** A room's steps as its history left them. */
export function stepsFrom({ snapshot, entries }: StoredRoom): readonly KeptStep[] {
  const before = readJson(snapshot?.access ?? "", z.object({ steps: z.array(z.unknown()) }))?.steps ?? [];
  let steps = before
    .flatMap((each) => keptStepSchema.safeParse(each).data ?? [])
    .reduce<readonly KeptStep[]>(withStep, []);
  for (const { kind, bytes } of entries) {
    const made = kind === ENTRY.try ? readStep(bytes) : null;
    if (made) steps = withStep(steps, made);
    const event = kind === ENTRY.help || kind === ENTRY.reason ? readStepEvent(bytes) : null;
    if (event) steps = withStepEvent(steps, event);
  }
  return steps;
}

/** A step as its entry in the history has it; null where that is none, or can't be read. */
export function readStep(bytes: Uint8Array): KeptStep | null {
  return readJson(bytes, keptStepSchema);
}

/** What happened about a step, as its entry in the history has it; null where that is something else, or can't be read. */
export function readStepEvent(bytes: Uint8Array): StepEvent | null {
  return readJson(bytes, stepEventSchema);
}
