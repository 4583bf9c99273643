import type { MathNode } from "mathjs";
import mathjs from "mathjs/lib/browser/math.js";
import { refuse } from "./entryProblem";
import { FUNCTIONS, type Token } from "./token";
import type { Operation, Tree } from "./tree";

// The library as one file. Its modules can't be reached one by one, and as a thousand files they take ten times as long
// to load, which whoever enters the first value would wait for.
const { parse } = mathjs;

/**
 * The tree of an expression's tokens. The library's parser, which knows assignments, strings, property access and much
 * else, is given only what `tokensOf` lets through: places of tokens in the list for values, signs, parentheses and the
 * five functions. Nothing but these comes back, and nothing is evaluated. ∥ goes as an operator that binds tighter than
 * multiplication. Throws {@link Unreadable}.
 */
export function treeOf(tokens: readonly Token[]): Tree {
  if (tokens.length === 0) refuse({ code: "empty" });
  return treeOfNode(parsed(tokens), tokens);
}

function parsed(tokens: readonly Token[]): MathNode {
  const pieces = tokens.map((token, place) => pieceOf(token, place, tokens));
  try {
    return parse(pieces.join(" "));
  } catch (error) {
    if (!(error instanceof SyntaxError)) throw error;
    return refuseSyntax(error, tokens, pieces);
  }
}

/** How a token is written for the parser. A bare number goes as a number, since `1/2 R1` is half of R1. */
function pieceOf(token: Token, place: number, tokens: readonly Token[]): string {
  switch (token.kind) {
    case "operand":
      // In parentheses, since a name before what is in parentheses would be taken for a function.
      if (token.writing.as !== "bare") return `(v${place})`;
      if (!isBehindSigned(place, tokens)) return `${place}`;
      return isHalved(place, tokens) ? `* ${place}` : `(v${place})`;
    case "call":
      return token.name;
    case "sign":
      return token.sign === "∥" ? ".^" : token.sign;
    case "power":
      return `^ ${place}`;
    case "open":
      return "(";
    case "close":
      return ")";
  }
}

/** The 50 of `−j50`: the parser takes no number behind what has a sign of its own. */
function isBehindSigned(place: number, tokens: readonly Token[]): boolean {
  const [sign, before] = [tokens[place - 2], tokens[place - 1]];
  return before?.kind === "operand" && sign?.kind === "sign" && (sign.sign === "-" || sign.sign === "+");
}

/** The 3 of `−j3/2 R1`, which stays the number of a fraction; not of `1/−j3/2`, where all of `−j3` divides. */
function isHalved(place: number, tokens: readonly Token[]): boolean {
  const [next, first] = [tokens[place + 1], tokens[place - 3]];
  return next?.kind === "sign" && next.sign === "/" && !(first?.kind === "sign" && first.sign === "/");
}

function refuseSyntax(error: SyntaxError, tokens: readonly Token[], pieces: readonly string[]): never {
  const char = "char" in error && typeof error.char === "number" ? error.char - 1 : 0;
  let start = 0;
  for (const [i, piece] of pieces.entries()) {
    if (char < start + piece.length) return refuse({ code: "misplaced", found: (tokens[i] as Token).text });
    start += piece.length + 1;
  }
  return refuse({ code: "unfinished" });
}

function treeOfNode(node: MathNode, tokens: readonly Token[]): Tree {
  if (isParenthesis(node)) return treeOfNode(node.content, tokens);
  if (isConstant(node)) return leaf(tokens[Number(node.value)]);
  if (isSymbol(node)) return leaf(tokens[Number(node.name.slice(1))]);
  if (isCall(node)) return callTree(node, tokens);
  if (isOperator(node)) return operatorTree(node, tokens);
  throw new Error(`treeOfNode: a ${node.type} has come out of numbers, names and signs`);
}

function leaf(token: Token | undefined): Tree {
  if (token?.kind !== "operand") throw new Error(`leaf: no operand, but ${token?.kind}`);
  return { kind: "value", value: token.value };
}

function callTree(node: Call, tokens: readonly Token[]): Tree {
  const name = FUNCTIONS.find((known) => known === node.fn.name);
  if (!name) throw new Error(`callTree: ${node.fn.name} is no function of ours`);
  const [argument] = node.args;
  if (!argument) return refuse({ code: "argumentMissing", name });
  return { kind: "call", name, of: treeOfNode(argument, tokens) };
}

const OPERATIONS: Readonly<Record<string, Operation>> = {
  add: "add",
  subtract: "subtract",
  multiply: "multiply",
  divide: "divide",
  dotPow: "parallel",
};

function operatorTree(node: Operator, tokens: readonly Token[]): Tree {
  const [first, second] = node.args;
  if (!first) throw new Error(`operatorTree: ${node.fn} of nothing`);
  if (node.fn === "unaryMinus") return { kind: "negated", of: treeOfNode(first, tokens) };
  if (node.fn === "unaryPlus") return treeOfNode(first, tokens);
  if (!second) throw new Error(`operatorTree: ${node.fn} of one`);
  if (node.fn === "pow") return powerTree(first, second, tokens);
  const kind = OPERATIONS[node.fn];
  if (!kind) throw new Error(`operatorTree: ${node.fn} is no operation of ours`);
  return { kind, left: treeOfNode(first, tokens), right: treeOfNode(second, tokens) };
}

/** The parser takes what stands behind an exponent for a part of it: `a^2 ∥ b` comes as a^(2 ∥ b), `a^2^3` as a^(2^3). */
function powerTree(base: MathNode, exponent: MathNode, tokens: readonly Token[]): Tree {
  if (isConstant(exponent)) return powered(treeOfNode(base, tokens), exponent, tokens);
  const [first, second] = isOperator(exponent) ? exponent.args : [];
  if (!isOperator(exponent) || !first || !second || !isConstant(first)) {
    throw new Error("powerTree: an exponent is no number");
  }
  const own = powered(treeOfNode(base, tokens), first, tokens);
  if (exponent.fn === "pow") return refuse({ code: "misplaced", found: "^" });
  return { kind: "parallel", left: own, right: treeOfNode(second, tokens) };
}

function powered(base: Tree, exponent: Constant, tokens: readonly Token[]): Tree {
  const token = tokens[Number(exponent.value)];
  if (token?.kind !== "power") throw new Error("powered: an exponent is no exponent");
  return { kind: "power", base, exponent: token.exponent };
}

// The library's own types give every node all fields, so the fields that are used are said here.
type Constant = MathNode & { readonly value: unknown };
type Operator = MathNode & { readonly fn: string; readonly args: readonly MathNode[] };
type Call = MathNode & { readonly fn: { readonly name: string }; readonly args: readonly MathNode[] };

const isParenthesis = (node: MathNode): node is MathNode & { readonly content: MathNode } =>
  node.type === "ParenthesisNode";
const isConstant = (node: MathNode): node is Constant => node.type === "ConstantNode";
const isSymbol = (node: MathNode): node is MathNode & { readonly name: string } => node.type === "SymbolNode";
const isOperator = (node: MathNode): node is Operator => node.type === "OperatorNode";
const isCall = (node: MathNode): node is Call => node.type === "FunctionNode";
