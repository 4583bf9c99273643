import type { InkMark } from "../../shared/board";

/** What ink there is, for whoever cannot see it: "Ink: 2 pen lines in brown, 1 arrow in violet." Words are read as they stand. */
export function inkWords(marks: readonly InkMark[]): string {
  const counts = new Map<string, { readonly mark: InkMark; count: number }>();
  for (const mark of marks) {
    if (mark.kind === "note") continue;
    const key = `${mark.kind} ${mark.colour}`;
    const known = counts.get(key);
    if (known) known.count += 1;
    else counts.set(key, { mark, count: 1 });
  }
  const parts = [...counts.values()].map(
    ({ mark, count }) => `${count} ${nameOf(mark.kind)}${count === 1 ? "" : "s"} in ${mark.colour}`,
  );
  return parts.length === 0 ? "" : `Ink: ${parts.join(", ")}.`;
}

function nameOf(kind: InkMark["kind"]): string {
  switch (kind) {
    case "pen":
      return "pen line";
    case "highlighter":
      return "highlighted place";
    case "arrow":
      return "arrow";
    case "note":
      return "note";
  }
}
