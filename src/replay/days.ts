/** A day as a date field has it, `2026-11-26`: the one that lies some days behind a time, in the reader's own place. */
export function inDays(now: number, days: number): string {
  const date = new Date(now);
  const then = new Date(date.getFullYear(), date.getMonth(), date.getDate() + days);
  const pad = (value: number) => String(value).padStart(2, "0");
  return `${then.getFullYear()}-${pad(then.getMonth() + 1)}-${pad(then.getDate())}`;
}

/** When a day is over, in ms since 1970; null for a field that holds no day. */
export function dayEnd(day: string): number | null {
  const [, year, month, date] = /^(\d{4})-(\d{2})-(\d{2})$/.exec(day) ?? [];
  if (!year || !month || !date) return null;
  return new Date(Number(year), Number(month) - 1, Number(date) + 1).getTime() - 1;
}

export function dayText(time: number): string {
  return new Date(time).toLocaleDateString([], { day: "numeric", month: "long", year: "numeric" });
}
