import { arch, cpus, platform } from "node:os";

/** A table in Markdown, also readable as it is. */
export function table(head: readonly string[], rows: readonly (readonly string[])[]): string {
  const widths = head.map((title, column) => Math.max(title.length, ...rows.map((row) => row[column]?.length ?? 0)));
  const line = (cells: readonly string[]) => `| ${cells.map((cell, c) => cell.padEnd(widths[c] ?? 0)).join(" | ")} |`;
  return [line(head), line(widths.map((width) => "-".repeat(width))), ...rows.map(line)].join("\n");
}

/** Milliseconds with three significant figures. */
export function ms(time: number): string {
  return time >= 100 ? time.toFixed(0) : time.toPrecision(3);
}

/** What the times were taken on, in words that fit any machine. */
export function machine(): string {
  const [major, minor] = process.versions.node.split(".");
  return `${cpus().length} processors, ${platform()} ${arch()}, Node ${major}.${minor}`;
}
