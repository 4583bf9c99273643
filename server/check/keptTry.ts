import { z } from "zod";
import type { Judgement } from "../../shared/check";
import { isSameCard, TRY_LENGTH, type Try, withTry } from "../../shared/messages";
import { ENTRY, type StoredRoom } from "../history";
import { type HelpEvent, helpEventSchema, helped, type KeptHelp, keptHelpSchema } from "./keptHelp";

/** A try as a room keeps it: with the key of the answer that it was judged by, which tells whether that still stands. */
export type KeptTry = Omit<Try, "isOutdated" | "judgement" | "help"> & {
  readonly judgement:
    | Exclude<Judgement, { readonly outcome: "unread" }>
    | {
        readonly outcome: "entered";
      }
    | Follows;
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
    each.help && isSameCard(each, event) && each.count === event.count
      ? { ...each, help: helped(each.help, event) }
      : each,
  );
}

const OF_HELP: readonly string[] = [ENTRY.help, ENTRY.question, ENTRY.reason];

/** A room's newest tries as its history left them. What can't be read, which nobody but us has written, counts as nothing. */
export function triesFrom({ snapshot, entries }: StoredRoom): readonly KeptTry[] {
  const settings = snapshot?.access ? z.object({ tries: z.array(z.unknown()) }).safeParse(json(snapshot.access)) : null;
  let tries = (settings?.data?.tries ?? []).reduce<readonly KeptTry[]>(withStored, []);
  for (const { kind, bytes } of entries) {
    if (kind === ENTRY.try) tries = withStored(tries, json(new TextDecoder().decode(bytes)));
    if (!OF_HELP.includes(kind)) continue;
    const { data } = helpEventSchema.safeParse(json(new TextDecoder().decode(bytes)));
    if (data) tries = withHelp(tries, data);
  }
  return tries;
}

/** What happened about a try, as its entry in the history has it; null where that can't be read. */
export function readHelpEvent(bytes: Uint8Array): HelpEvent | null {
  return helpEventSchema.safeParse(json(new TextDecoder().decode(bytes))).data ?? null;
}

/** A try as its entry in the history has it; null where that can't be read. */
export function readTry(bytes: Uint8Array): KeptTry | null {
  return keptTrySchema.safeParse(json(new TextDecoder().decode(bytes))).data ?? null;
}

function withStored(tries: readonly KeptTry[], value: unknown): readonly KeptTry[] {
  const { data } = keptTrySchema.safeParse(value);
  return data ? withTry(tries, data) : tries;
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
