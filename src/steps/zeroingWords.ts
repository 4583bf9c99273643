import type { ZeroingTry } from "../../shared/messages";
import type { EntryMark } from "../sum/Mark";

/** What is asked of a circuit in which some sources are to act: `V1 alone is to act. What does each source become?` */
export function zeroingQuestion(acting: ReadonlySet<string>): string {
  const names = [...acting];
  const only = names.length === 1 ? `Only ${names[0]} is to act.` : `Only ${listed(names)} are to act.`;
  return `${only} What does each source become?`;
}

function listed(names: readonly string[]): string {
  return `${names.slice(0, -1).join(", ")} and ${names.at(-1)}`;
}

/** What is said of the newest zeroing that was checked, with its mark. */
export function zeroingSaid({ outcome, isOutdated }: ZeroingTry): { readonly mark: EntryMark; readonly text: string } {
  if (isOutdated) return { mark: "outdated", text: "Checked before the circuit was changed." };
  return outcome === "right" ? { mark: "right", text: "Right." } : { mark: "wrong", text: "Not right yet." };
}
