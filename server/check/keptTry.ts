import { z } from "zod";
import { TRY_LENGTH, type Try, tidyCard } from "../../shared/messages";
import { ENTRY, type StoredRoom } from "../history";

/** A try as a room keeps it: with the key of the answer that it was judged by, which tells whether that still stands. */
export type KeptTry = Omit<Try, "isOutdated"> & { readonly answer: string };

/** Cards of which the newest try is kept; more than any board has room for. */
const CARD_LIMIT = 100;

const judgement = z.custom<KeptTry["judgement"]>(
  (value) =>
    z
      .discriminatedUnion("outcome", [
        z.strictObject({ outcome: z.literal("right") }),
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
  count: z.int().min(1),
  answer: z.string(),
});

/** The tries with a new one in the place of its card's last, newest last. The oldest goes where there are too many. */
export function withTry(tries: readonly KeptTry[], made: KeptTry): readonly KeptTry[] {
  return [...tries.filter((each) => !isSameCard(each, made)), made].slice(-CARD_LIMIT);
}

export function isSameCard(a: Pick<KeptTry, "wanted" | "card">, b: Pick<KeptTry, "wanted" | "card">): boolean {
  return a.wanted === b.wanted && tidyCard(a.card) === tidyCard(b.card);
}

/** A room's newest tries as its history left them. What can't be read, which nobody but us has written, counts as nothing. */
export function triesFrom({ snapshot, entries }: StoredRoom): readonly KeptTry[] {
  const settings = snapshot?.access ? z.object({ tries: z.array(z.unknown()) }).safeParse(json(snapshot.access)) : null;
  const made = entries.filter(({ kind }) => kind === ENTRY.try);
  const stored = [...(settings?.data?.tries ?? []), ...made.map(({ bytes }) => json(new TextDecoder().decode(bytes)))];
  return stored.reduce<readonly KeptTry[]>((tries, value) => {
    const { data } = keptTrySchema.safeParse(value);
    return data ? withTry(tries, data) : tries;
  }, []);
}

function json(text: string): unknown {
  try {
    return JSON.parse(text);
  } catch {
    return null;
  }
}
