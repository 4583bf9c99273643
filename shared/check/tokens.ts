import { plainDigits } from "../quantity";
import { canonicalSigns } from "./characters";
import { refuse, Unreadable } from "./entryProblem";
import type { Givens } from "./givens";
import { readPhaseToken } from "./readAngle";
import { type NameReader, type Reader, take } from "./reader";
import { readNumberToken } from "./readNumber";
import { readWordToken } from "./readWord";
import { DEPTH_LIMIT, OTHER, TOKEN_LIMIT, type Token } from "./token";

const SPACES = / +/y;
const NUMBER_AHEAD = /(?=\d|[.,]\d)/y;
const ROOT = /√ */y;
const OPEN_AHEAD = /(?=\()/y;
const PARALLEL = /∥|\|\||\/\//y;
const POWER = /(?:\^|\*\*) *(?:([+-]?\d+)(?![.,]?\d)|\( *([+-]? *\d+) *\))|([⁺⁻]?[⁰¹²³⁴-⁹]+)/y;
const POWER_MARK = /\^|\*\*/y;
const SIGN = /[-+*/]/y;
/** Beyond this a power is no step of a worked line, but a way to make giant numbers. */
const EXPONENT_LIMIT = 30;

/** The pieces of an expression. Throws {@link Unreadable} where it holds anything that is not read. */
export function tokensOf(text: string, givens: Givens, measure: "peak" | "rms"): readonly Token[] {
  return placedTokens(text.trim(), givens, measure, null).tokens;
}

/** The pieces of an expression, with the place of each in it, from its first character to behind its last. */
export type PlacedTokens = {
  readonly tokens: readonly Token[];
  readonly places: readonly (readonly [start: number, end: number])[];
};

/** {@link tokensOf} with places, where `names` reads further names. What it throws has the place as well. */
export function placedTokens(
  text: string,
  givens: Givens,
  measure: "peak" | "rms",
  names: NameReader | null,
): PlacedTokens {
  const reader: Reader = { text: canonicalSigns(text), givens, measure, names, tokens: [], at: 0 };
  const places: [number, number][] = [];
  let start = 0;
  try {
    while (take(reader, SPACES) || reader.at < reader.text.length) {
      start = reader.at;
      if (start === reader.text.length) break;
      readPiece(reader);
      while (places.length < reader.tokens.length) places.push([start, reader.at]);
      if (reader.tokens.length > TOKEN_LIMIT) refuse({ code: "tooManyTerms", limit: TOKEN_LIMIT });
    }
  } catch (error) {
    if (error instanceof Unreadable) error.at ??= start;
    throw error;
  }
  checkParentheses(reader.tokens);
  return { tokens: reader.tokens, places };
}

function readPiece(reader: Reader): void {
  const token = readOperand(reader) ?? readSign(reader);
  if (token) reader.tokens.push(token);
  else if (take(reader, ROOT)) readRoot(reader);
  else refuseCharacter(reader);
}

function readOperand(reader: Reader): Token | null {
  const named = reader.names?.(reader.text, reader.at) ?? null;
  if (named) {
    const text = reader.text.slice(reader.at, reader.at + named.length);
    reader.at += named.length;
    return { kind: "operand", text, value: named.value, writing: OTHER };
  }
  if (take(reader, NUMBER_AHEAD)) return readNumberToken(reader);
  const phase = readPhaseToken(reader);
  if (phase) return { kind: "operand", ...phase, writing: OTHER };
  return readWordToken(reader);
}

function readSign(reader: Reader): Token | null {
  const parallel = take(reader, PARALLEL)?.[0];
  if (parallel) return { kind: "sign", sign: "∥", text: parallel };
  const power = take(reader, POWER);
  if (power) return powerToken(power);
  if (take(reader, POWER_MARK)) return refuse({ code: "exponent", limit: EXPONENT_LIMIT });
  const text = take(reader, SIGN)?.[0] ?? take(reader, /[()]/y)?.[0];
  switch (text) {
    case "+":
    case "-":
    case "*":
    case "/":
      return { kind: "sign", sign: text, text };
    case "(":
      return { kind: "open", text };
    case ")":
      return { kind: "close", text };
    default:
      return null;
  }
}

function powerToken([text, plain, inParentheses, raised]: RegExpExecArray): Token {
  const exponent = Number((plain ?? inParentheses ?? plainDigits(raised as string)).replaceAll(" ", ""));
  if (Math.abs(exponent) > EXPONENT_LIMIT) refuse({ code: "exponent", limit: EXPONENT_LIMIT });
  return { kind: "power", exponent, text };
}

/** `√(…)` as a call; `√2` as a call of the one number or name behind it. */
function readRoot(reader: Reader): void {
  reader.tokens.push({ kind: "call", name: "sqrt", text: "√" });
  if (take(reader, OPEN_AHEAD)) return;
  const operand = readOperand(reader);
  if (operand?.kind !== "operand") refuse({ code: "argumentMissing", name: "√" });
  reader.tokens.push({ kind: "open", text: "" }, operand, { kind: "close", text: "" });
}

function refuseCharacter(reader: Reader): never {
  const found = String.fromCodePoint(reader.text.codePointAt(reader.at) as number);
  return refuse(found === "=" ? { code: "equation" } : { code: "unknownCharacter", found });
}

function checkParentheses(tokens: readonly Token[]): void {
  let depth = 0;
  for (const { kind } of tokens) {
    if (kind === "open") depth += 1;
    if (kind === "close") depth -= 1;
    if (depth < 0) refuse({ code: "notOpened" });
    if (depth > DEPTH_LIMIT) refuse({ code: "tooDeep", limit: DEPTH_LIMIT });
  }
  if (depth > 0) refuse({ code: "notClosed" });
}
