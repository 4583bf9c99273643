import type { PartWords } from "./circuitWords";

/** Changes that are told one by one; more than these are only counted. */
const TOLD = 3;

/** What has changed between two readings of a circuit, in sentences; "" where nothing that can be read aloud has. */
export function changesText(before: readonly PartWords[], after: readonly PartWords[]): string {
  const [earlier, later] = [byEntry(before), byEntry(after)];
  const sentences = [
    ...after.flatMap((part) => {
      const was = earlier.get(part.entry);
      if (!was) return [`${part.name} is new: ${part.text}.`];
      if (was.name !== part.name) return [`${was.name} is called ${part.name} now.`];
      return was.text === part.text ? [] : [`${part.name} is now a ${part.text}.`.replace("a ideal", "an ideal")];
    }),
    ...before.filter((part) => !later.has(part.entry)).map((part) => `${part.name} is gone.`),
  ];
  return sentences.length > TOLD ? `${sentences.length} parts have changed.` : sentences.join(" ");
}

function byEntry(parts: readonly PartWords[]): ReadonlyMap<string, PartWords> {
  return new Map(parts.map((part) => [part.entry, part]));
}
