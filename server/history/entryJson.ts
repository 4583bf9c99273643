import type { z } from "zod";

/** A value as an entry of the history holds it. */
export function jsonBytes(value: object): Uint8Array {
  return new TextEncoder().encode(JSON.stringify(value));
}

/** What an entry, or a text that is kept, holds; null where it is no JSON, or none of this form. */
export function readJson<T>(source: Uint8Array | string, schema: z.ZodType<T>): T | null {
  try {
    const text = typeof source === "string" ? source : new TextDecoder().decode(source);
    return schema.safeParse(JSON.parse(text)).data ?? null;
  } catch {
    return null;
  }
}
