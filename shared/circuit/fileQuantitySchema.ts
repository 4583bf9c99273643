import * as z from "zod";

/** Longest text of one quantity, in UTF-16 units. */
export const QUANTITY_LIMIT = 120;

export const quantitySchema = z.union([z.string().max(QUANTITY_LIMIT), z.number()]);

export function quantityOf(takes: string, example: string) {
  return quantitySchema.meta({
    description: `${takes}, for example "${example}"; a bare number counts the unit itself.`,
  });
}

/** A quantity as a file gives it: text, or a bare number. */
export type QuantityEntry = z.infer<typeof quantitySchema>;
