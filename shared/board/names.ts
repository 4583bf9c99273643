import type { PartKind } from "../circuit";
import { unreachable } from "../quantity";

/** The letter symbols that automatic names begin with. */
export function namePrefix(kind: PartKind): string {
  switch (kind) {
    case "resistor":
      return "R";
    case "capacitor":
      return "C";
    case "inductor":
      return "L";
    case "voltage-source":
      return "V";
    case "current-source":
      return "I";
    case "vcvs":
    case "ccvs":
      return "Vd";
    case "vccs":
    case "cccs":
      return "Id";
    case "ideal-opamp":
      return "A";
    case "ideal-transformer":
      return "T";
    case "switch":
      return "S";
    case "wire":
      return "W";
    default:
      return unreachable(kind);
  }
}

/** The first of `R1`, `R2`, … that `taken` does not hold. */
export function nextFreeName(prefix: string, taken: ReadonlySet<string>): string {
  let number = 1;
  while (taken.has(`${prefix}${number}`)) number += 1;
  return `${prefix}${number}`;
}

/** Whether a text can name a part, a node or a wanted quantity: 1 to 24 characters, none of them blank. */
export function isName(text: unknown): text is string {
  return typeof text === "string" && /^\S{1,24}$/u.test(text);
}

/** An entry that wants a name: `asked` is what the document holds, null where nobody has given one. */
export type NameRequest<Id extends string> = {
  readonly id: Id;
  readonly asked: string | null;
  readonly kind: PartKind;
};

/**
 * One name for each entry, no two alike. Where two people gave the same name at once (each board placed an `R3` while
 * the other was out of reach), the entry with the lower id keeps it and the later id gets the next free number of its
 * kind. Every board holds the same entries in the end, so every board settles on the same names.
 */
export function settleNames<Id extends string>(requests: readonly NameRequest<Id>[]): ReadonlyMap<Id, string> {
  const inOrder = [...requests].sort((a, b) => (a.id < b.id ? -1 : 1));
  const taken = new Set<string>();
  const names = new Map<Id, string>();
  for (const { id, asked } of inOrder) {
    if (asked === null || taken.has(asked)) continue;
    taken.add(asked);
    names.set(id, asked);
  }
  for (const { id, kind } of inOrder) {
    if (names.has(id)) continue;
    const name = nextFreeName(namePrefix(kind), taken);
    taken.add(name);
    names.set(id, name);
  }
  return names;
}
