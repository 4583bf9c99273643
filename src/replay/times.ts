/** Time since a beginning, in ms: `0:05`, `12:04`, `1:02:07`. */
export function elapsedText(elapsed: number): string {
  const seconds = Math.max(0, Math.floor(elapsed / 1000));
  const [h, m, s] = [Math.floor(seconds / 3600), Math.floor(seconds / 60) % 60, seconds % 60];
  const pad = (value: number) => String(value).padStart(2, "0");
  return h > 0 ? `${h}:${pad(m)}:${pad(s)}` : `${m}:${pad(s)}`;
}

/** A length of time in ms, in words: `45 s`, `12 min`, `1 h 5 min`, `3 days`. */
export function lengthText(length: number): string {
  const seconds = Math.round(length / 1000);
  if (seconds < 60) return `${seconds} s`;
  const minutes = Math.round(seconds / 60);
  if (minutes < 60) return `${minutes} min`;
  const [hours, rest] = [Math.floor(minutes / 60), minutes % 60];
  if (hours >= 48) return `${Math.round(hours / 24)} days`;
  return rest === 0 ? `${hours} h` : `${hours} h ${rest} min`;
}

/** The same for whoever listens: `12 minutes 4 seconds`. */
export function spokenElapsed(elapsed: number): string {
  const seconds = Math.max(0, Math.floor(elapsed / 1000));
  const parts = [
    [Math.floor(seconds / 3600), "hour"],
    [Math.floor(seconds / 60) % 60, "minute"],
    [seconds % 60, "second"],
  ] as const;
  const said = parts.filter(([count]) => count > 0).map(([count, word]) => `${count} ${word}${count === 1 ? "" : "s"}`);
  return said.length === 0 ? "the beginning" : said.join(" ");
}

/** Day and time of day in the reader's own place: `26 November 2026, 14:22:10`. */
export function dateText(time: number): string {
  const date = new Date(time);
  const day = date.toLocaleDateString([], { day: "numeric", month: "long", year: "numeric" });
  return `${day}, ${date.toLocaleTimeString([], { hour: "2-digit", minute: "2-digit", second: "2-digit" })}`;
}
