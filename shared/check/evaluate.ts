import { unreachable } from "../quantity";
import { PURE, rootOf, sameDimension, timesPower } from "./dimension";
import { refuse } from "./entryProblem";
import {
  addNumbers,
  conjugateOf,
  divideNumbers,
  functionOf,
  multiplyNumbers,
  negateNumber,
  powerOf,
  rootOfNumber,
} from "./numbers";
import type { FunctionName } from "./token";
import type { Operation, Tree } from "./tree";
import type { Value } from "./value";

type Dimension = Value["dimension"];

/**
 * The value of an expression: exact where all of it is rational, in doubles otherwise. Units are checked: what is added
 * or in parallel is of one dimension, sines are of pure numbers. Throws {@link Unreadable}.
 */
export function evaluate(tree: Tree): Value {
  switch (tree.kind) {
    case "value":
      return tree.value;
    case "negated": {
      const { number, dimension } = evaluate(tree.of);
      return { number: negateNumber(number), dimension };
    }
    case "power": {
      const { number, dimension } = evaluate(tree.base);
      return { number: powerOf(number, tree.exponent), dimension: timesOpen(PURE, dimension, tree.exponent) };
    }
    case "call":
      return call(tree.name, evaluate(tree.of));
    case "add":
    case "subtract":
    case "multiply":
    case "divide":
    case "parallel":
      return combine(tree.kind, evaluate(tree.left), evaluate(tree.right));
    default:
      return unreachable(tree);
  }
}

function combine(operation: Operation, left: Value, right: Value): Value {
  switch (operation) {
    case "add":
      return { number: addNumbers(left.number, right.number), dimension: common(operation, left, right) };
    case "subtract":
      return { number: addNumbers(left.number, negateNumber(right.number)), dimension: common(operation, left, right) };
    case "multiply":
      return {
        number: multiplyNumbers(left.number, right.number),
        dimension: timesOpen(left.dimension, right.dimension, 1),
      };
    case "divide":
      return {
        number: divideNumbers(left.number, right.number),
        dimension: timesOpen(left.dimension, right.dimension, -1),
      };
    case "parallel": {
      const dimension = common(operation, left, right);
      const product = multiplyNumbers(left.number, right.number);
      return { number: divideNumbers(product, addNumbers(left.number, right.number)), dimension };
    }
    default:
      return unreachable(operation);
  }
}

/** The one dimension of what is added; a number whose dimension is open takes the other's. */
function common(operation: "add" | "subtract" | "parallel", left: Value, right: Value): Dimension {
  if (left.dimension === "open") return right.dimension;
  if (right.dimension === "open" || sameDimension(left.dimension, right.dimension)) return left.dimension;
  return refuse({ code: "unitsDiffer", operation, left: left.dimension, right: right.dimension });
}

function timesOpen(a: Dimension, b: Dimension, n: number): Dimension {
  return a === "open" || b === "open" ? "open" : timesPower(a, b, n);
}

function call(name: FunctionName, { number, dimension }: Value): Value {
  switch (name) {
    case "sqrt": {
      const root = dimension === "open" ? "open" : rootOf(dimension);
      if (root === null) return refuse({ code: "rootOfUnit", dimension: dimension as Exclude<Dimension, "open"> });
      return { number: rootOfNumber(number), dimension: root };
    }
    case "conj":
      return { number: conjugateOf(number), dimension };
    case "abs":
      return { number: functionOf(name, number), dimension };
    case "sin":
    case "cos":
      if (dimension !== "open" && !sameDimension(dimension, PURE)) refuse({ code: "angleHasUnit", name, dimension });
      return { number: functionOf(name, number), dimension: PURE };
    default:
      return unreachable(name);
  }
}
