import type { Circuit, NodeId } from "../../shared/circuit";

/** The parts that a circuit's wanted quantities ask about: what a current or power is of, and what lies between the nodes of a voltage. */
export function askedParts({ parts, wanted }: Circuit): ReadonlySet<string> {
  const between = (a: NodeId, b: NodeId) =>
    parts.filter((part) => "plus" in part && new Set([part.plus, part.minus, a, b]).size === 2);
  return new Set(
    wanted.flatMap((each): string[] => {
      switch (each.kind) {
        case "current":
          return [each.through];
        case "power":
          return [each.of];
        default:
          return between(each.from, each.to).map(({ id }) => id);
      }
    }),
  );
}
