import { type Explanation, explanationWords, type Mistake, tellingQuestion } from "../../shared/check/mistakes";
import type { PartId } from "../../shared/circuit";
import type { HelpQuestion, Rung } from "../../shared/messages";

/** The rungs of help in their order, by what they say. */
export const RUNGS = ["where", "principle", "fix"] as const;
export type RungName = (typeof RUNGS)[number];

export type WordedRung = Rung & { readonly rung: RungName };
export type WordedQuestion = HelpQuestion;

/** A rung for an explanation: its words, with the parts and nodes that they name. */
export function wordedRung(explanation: Explanation, rung: RungName): WordedRung {
  const text = explanationWords(explanation)[rung];
  const parts = explanation.mistakes.flatMap((mistake) => mistake.parts).concat(explanation.addend ?? []);
  const nodes = explanation.mistakes.flatMap(({ node }) => node ?? []);
  // A name is in the words where they are others once it is another: a part may well be called "a" or "sign".
  const isNamed = (rename: Rename) => explanationWords(renamed(explanation, rename))[rung] !== text;
  return {
    rung,
    text,
    parts: [...new Set(parts)].filter((name) => isNamed({ parts: other(name), nodes: same })),
    nodes: [...new Set(nodes)].filter((name) => isNamed({ parts: same, nodes: other(name) })),
  };
}

export function wordedQuestion(a: Explanation, b: Explanation): WordedQuestion {
  return { text: tellingQuestion(a, b), deeds: [explanationWords(a).deed, explanationWords(b).deed] };
}

type Rename = { readonly parts: (name: string) => string; readonly nodes: (name: string) => string };

const same = (name: string): string => name;
const other = (name: string) => (each: string) => (each === name ? `${each}\0` : each);

function renamed({ mistakes, addend }: Explanation, rename: Rename): Explanation {
  const part = (name: PartId) => rename.parts(name) as PartId;
  const mistake = (each: Mistake): Mistake => ({
    ...each,
    parts: each.parts.map(part),
    node: each.node === null ? null : rename.nodes(each.node),
  });
  return { mistakes: mistakes.map(mistake), addend: addend?.map(part) ?? null };
}
