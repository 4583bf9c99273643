import { z } from "zod";
import type { Judgement } from "../../shared/check";
import { isMeantTry, TRY_LENGTH, type Try, withTry } from "../../shared/messages";
import { ENTRY, readJson, type StoredRoom } from "../history";
import { type HelpEvent, helpEventSchema, helped, type KeptHelp, keptHelpSchema } from "./keptHelp";

/** A try as a room keeps it: with the key of the answer that it was judged by, which tells whether that still stands. */
export type KeptTry = Omit<Try, "isOutdated" | "judgement" | "help"> & {
  readonly judgement: Exclude<Judgement, { readonly outcome: "unread" }> | { readonly outcome: "entered" } | Follows;
  /** Null where nothing explains it, and for tries from before there was help. */
  readonly help: KeptHelp | null;
  readonly answer: string;
};

/** A total that is the sum of other cards' values, of which these were wrong: each told by when it was tried. */
export type Follows = {
  readonly outcome: "follows";
  readonly from: readonly { readonly card: string; readonly time: number }[];
};

const judgement = z.custom<KeptTry["judgement"]>(
  (value) =>
    z
      .discriminatedUnion("outcome", [
        z.strictObject({ outcome: z.literal("right") }),
        z.strictObject({ outcome: z.literal("entered") }),
        z.strictObject({
          outcome: z.literal("follows"),
          from: z.array(z.strictObject({ card: z.string(), time: z.number() })),
        }),
        z.strictObject({ outcome: z.literal("wrong"), diagnosis: z.looseObject({ code: z.string() }) }),
      ])
      .safeParse(value).success,
);

const keptTrySchema: z.ZodType<KeptTry> = z.strictObject({
  wanted: z.string(),
  card: z.string(),
  text: z.string().max(TRY_LENGTH),
  participant: z.string(),
  name: z.string(),
  time: z.number(),
  judgement,
  help: keptHelpSchema.nullable().catch(null).default(null),
  count: z.int().min(0),
  answer: z.string(),
});

/** The tries after something happened about one of them; as they are where that is not kept any more. */
export function withHelp(tries: readonly KeptTry[], event: HelpEvent): readonly KeptTry[] {
  return tries.map((each) =>
    each.help && isMeantTry(each, event) ? { ...each, help: helped(each.help, event) } : each,
  );
}

const OF_HELP: readonly string[] = [ENTRY.help, ENTRY.question, ENTRY.reason];

/** A room's newest tries as its history left them. What can't be read, which nobody but us has written, counts as nothing. */
export function triesFrom({ snapshot, entries }: StoredRoom): readonly KeptTry[] {
  const before = readJson(snapshot?.access ?? "", z.object({ tries: z.array(z.unknown()) }))?.tries ?? [];
  let tries = before
    .flatMap((each) => keptTrySchema.safeParse(each).data ?? [])
    .reduce<readonly KeptTry[]>(withTry, []);
  for (const { kind, bytes } of entries) {
    const made = kind === ENTRY.try ? readTry(bytes) : null;
    if (made) tries = withTry(tries, made);
    const event = OF_HELP.includes(kind) ? readHelpEvent(bytes) : null;
    if (event) tries = withHelp(tries, event);
  }
  return tries;
}

/** What happened about a try, as its entry in the history has it; null where that can't be read. */
export function readHelpEvent(bytes: Uint8Array): HelpEvent | null {
  return readJson(bytes, helpEventSchema);
}

/** A try as its entry in the history has it; null where that can't be read. */
export function readTry(bytes: Uint8Array): KeptTry | null {
  return readJson(bytes, keptTrySchema);
}
