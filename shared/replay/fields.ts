// Readers of fields of anybody's making: the value where it has the type, null where it doesn't.

export function record(value: unknown): Readonly<Record<string, unknown>> | null {
  return typeof value === "object" && value !== null && !Array.isArray(value)
    ? (value as Readonly<Record<string, unknown>>)
    : null;
}

export function text(value: unknown): string | null {
  return typeof value === "string" ? value : null;
}

export function number(value: unknown): number | null {
  return typeof value === "number" && Number.isFinite(value) ? value : null;
}

export function boolean(value: unknown): boolean | null {
  return typeof value === "boolean" ? value : null;
}

/** The texts among the members of a list; none of anything else. */
export function texts(value: unknown): readonly string[] {
  return Array.isArray(value) ? value.filter((each): each is string => typeof each === "string") : [];
}
