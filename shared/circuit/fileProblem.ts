import type { QuantityProblem, UnitSymbol } from "../quantity";
import type { JsonFault } from "./jsonFault";
import type { PartKind } from "./part";

/** Keys and list places from the top of the file down to what is meant. */
export type FilePath = readonly (string | number)[];

/** What a sentence can be about: a kind of part, or one of the other objects of a file. */
export type FileSubject = PartKind | "circuit file" | "element" | "wanted" | "group" | "drawing" | "line" | "pose";

/**
 * Something that keeps a circuit file from being read, told by code and data; `fileProblemText` makes the sentence.
 * `path` is empty where the text or the file as a whole is meant.
 */
export type FileProblem = { readonly path: FilePath } & (TextProblem | ShapeProblem | ValueProblem | ReferenceProblem);

type TextProblem =
  | { readonly code: "emptyText" }
  | { readonly code: "textTooLong"; readonly limit: number }
  | { readonly code: "notJson"; readonly fault: JsonFault };

/** `found` is what stands there in words: `the number 3`, `text "abc"`, `a list`. `nearest` is a known word close to it. */
type ShapeProblem =
  | { readonly code: "newerVersion"; readonly found: number; readonly reads: number }
  | { readonly code: "otherFormat"; readonly found: string; readonly format: string }
  | { readonly code: "wrongType"; readonly expected: string; readonly found: string }
  | { readonly code: "missingField"; readonly subject: FileSubject }
  | { readonly code: "unknownField"; readonly subject: FileSubject; readonly nearest: string | null }
  | {
      readonly code: "notOneOf";
      readonly found: string;
      readonly allowed: readonly (string | number)[];
      readonly nearest: string | null;
    }
  | { readonly code: "nodeCount"; readonly subject: FileSubject; readonly wanted: number; readonly found: number }
  | { readonly code: "pointLength"; readonly found: number }
  | { readonly code: "badName"; readonly fault: "empty" | "spaces" | "control" }
  | { readonly code: "tooMany"; readonly limit: number }
  | { readonly code: "tooFew"; readonly least: number }
  | { readonly code: "tooLong"; readonly limit: number }
  | { readonly code: "offGrid"; readonly limit: number; readonly found: string }
  | { readonly code: "controlForm"; readonly subject: PartKind }
  | { readonly code: "gainUnit"; readonly subject: PartKind; readonly found: string };

type ValueProblem =
  | {
      readonly code: "badQuantity";
      readonly subject: PartKind;
      readonly takes: UnitSymbol;
      readonly problem: QuantityProblem;
    }
  | { readonly code: "numberOfManyDigits"; readonly digits: number }
  | { readonly code: "zeroValue"; readonly subject: "capacitor" | "inductor" | "ideal-transformer" }
  | { readonly code: "frequencyNotPositive" }
  /** Exactly one of the two fields is to be given; `given` says whether both are or neither is. */
  | {
      readonly code: "eitherOr";
      readonly subject: PartKind;
      readonly other: string;
      readonly given: "both" | "neither";
    }
  /** A field of sinusoids beside a constant value. */
  | { readonly code: "notASinusoid" }
  /** A field of sinusoids beside a text that says all of the sinusoid. */
  | { readonly code: "saidInValue" }
  | { readonly code: "notAlongGrid"; readonly from: string; readonly to: string }
  | { readonly code: "noLength"; readonly at: string };

type ReferenceProblem =
  | { readonly code: "nameTaken"; readonly name: string; readonly by: FilePath }
  | { readonly code: "unknownPart"; readonly part: string; readonly nearest: string | null }
  | { readonly code: "unknownNode"; readonly node: string; readonly nearest: string | null }
  | {
      readonly code: "notATerminal";
      readonly node: string;
      readonly part: string;
      readonly terminals: readonly string[];
    }
  | { readonly code: "sameNode"; readonly node: string }
  | { readonly code: "otherWinding"; readonly part: string }
  | { readonly code: "whichWinding"; readonly part: string }
  | { readonly code: "noWindings"; readonly part: string }
  | { readonly code: "directionClash" }
  | { readonly code: "notTwoTerminal"; readonly part: string; readonly subject: PartKind }
  | { readonly code: "notUsedHere"; readonly quantity: string }
  | { readonly code: "needsFromTo" }
  | { readonly code: "fieldClash"; readonly other: string }
  | { readonly code: "noReferenceNode" }
  | { readonly code: "notASource"; readonly part: string; readonly subject: PartKind }
  | { readonly code: "namedTwice"; readonly name: string }
  /** A group of all sources, which is the total. */
  | { readonly code: "groupOfAll" }
  /** A group of the sources of another one. */
  | { readonly code: "groupTaken"; readonly by: FilePath };
