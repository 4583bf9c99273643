import type { FunctionName } from "./token";
import type { Value } from "./value";

/** An expression: what is done to which values. Nothing in it can be run. */
export type Tree =
  | { readonly kind: "value"; readonly value: Value }
  | { readonly kind: "negated"; readonly of: Tree }
  | { readonly kind: Operation; readonly left: Tree; readonly right: Tree }
  | { readonly kind: "power"; readonly base: Tree; readonly exponent: number }
  | { readonly kind: "call"; readonly name: FunctionName; readonly of: Tree };

export type Operation = "add" | "subtract" | "multiply" | "divide" | "parallel";
