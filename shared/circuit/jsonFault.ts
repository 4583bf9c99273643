/** Where a text stops being JSON (RFC 8259), what could have stood there, and what does. Lines and columns from 1. */
export type JsonFault = {
  readonly line: number;
  readonly column: number;
  readonly expected: string;
  /** The word or character found, in quotes, or what it is in words; null at the end of the text. */
  readonly found: string | null;
};

/** What may come next. "firstKey" and "firstItem" stand after an opening bracket, which may close at once. */
type Expectation = "value" | "firstItem" | "firstKey" | "key" | "colon" | "comma" | "end";
type Bracket = "{" | "[";
type Fault = { readonly offset: number; readonly expected: string };
type Step = { readonly offset: number; readonly next: Expectation } | Fault;

const CLOSING = { "{": "}", "[": "]" } as const;

/**
 * The first fault of a text that is not JSON; null for a text that is. The engine's own message is not used, since
 * each engine words it and counts it differently. Runs on a stack of its own, so depth cannot overflow the call stack.
 */
export function findJsonFault(text: string): JsonFault | null {
  const open: Bracket[] = [];
  let expects: Expectation = "value";
  let offset = skipSpace(text, 0);
  while (expects !== "end" || offset < text.length) {
    const step = takeStep(text, offset, expects, open);
    if ("expected" in step) return faultAt(text, step);
    offset = skipSpace(text, step.offset);
    expects = step.next;
  }
  return null;
}

function takeStep(text: string, offset: number, expects: Expectation, open: Bracket[]): Step {
  const inner = open.at(-1);
  const afterValue = (depth: number): Expectation => (depth === 0 ? "end" : "comma");
  const closes = inner !== undefined && text[offset] === CLOSING[inner];
  if (closes && (expects === "comma" || expects === "firstItem" || expects === "firstKey")) {
    open.pop();
    return { offset: offset + 1, next: afterValue(open.length) };
  }
  switch (expects) {
    case "value":
    case "firstItem":
      return takeValue(text, offset, open, afterValue(open.length));
    case "firstKey":
    case "key":
      return text[offset] === '"'
        ? takeString(text, offset, "colon")
        : { offset, expected: expectedText(expects, inner) };
    case "colon":
      return text[offset] === ":" ? { offset: offset + 1, next: "value" } : { offset, expected: "a colon" };
    case "comma":
      if (text[offset] !== ",") return { offset, expected: expectedText(expects, inner) };
      return { offset: offset + 1, next: inner === "{" ? "key" : "value" };
    case "end":
      return { offset, expected: "the end of the file" };
  }
}

function expectedText(expects: "firstKey" | "key" | "comma", inner: Bracket | undefined): string {
  if (expects === "key") return "a field name in double quotes";
  if (expects === "firstKey") return 'a field name in double quotes or "}"';
  return `a comma or "${inner === "{" ? "}" : "]"}"`;
}

const SCALAR = /^(?:-?(?:0|[1-9]\d*)(?:\.\d+)?(?:[eE][+-]?\d+)?|true|false|null)(?![\p{L}\p{N}_])/u;

function takeValue(text: string, offset: number, open: Bracket[], next: Expectation): Step {
  const first = text[offset];
  if (first === "{" || first === "[") {
    open.push(first);
    return { offset: offset + 1, next: first === "{" ? "firstKey" : "firstItem" };
  }
  if (first === '"') return takeString(text, offset, next);
  const scalar = SCALAR.exec(text.slice(offset));
  return scalar ? { offset: offset + scalar[0].length, next } : { offset, expected: "a value" };
}

function takeString(text: string, offset: number, next: Expectation): Step {
  for (let i = offset + 1; i < text.length; i++) {
    const unit = text.charCodeAt(i);
    if (unit === 0x22) return { offset: i + 1, next };
    if (unit < 0x20) return { offset: i, expected: "a closing double quote" };
    if (unit !== 0x5c) continue;
    const escaped = /^\\(?:["\\/bfnrt]|u[0-9a-fA-F]{4})/.exec(text.slice(i, i + 6));
    if (!escaped) return { offset: i, expected: 'an escape such as "\\n" or "\\u03a9"' };
    i += escaped[0].length - 1;
  }
  return { offset: text.length, expected: "a closing double quote" };
}

function skipSpace(text: string, from: number): number {
  let offset = from;
  while (offset < text.length && " \t\n\r".includes(text[offset] as string)) offset++;
  return offset;
}

function faultAt(text: string, { offset, expected }: Fault): JsonFault {
  const lines = text.slice(0, offset).split(/\r\n|\r|\n/);
  return { line: lines.length, column: (lines.at(-1) as string).length + 1, expected, found: foundAt(text, offset) };
}

function foundAt(text: string, offset: number): string | null {
  const point = text.codePointAt(offset);
  if (point === undefined) return null;
  if (point === 0x0a || point === 0x0d) return "a line break";
  if (point === 0x22) return "a double quote";
  if (point < 0x20) return `the control character U+${point.toString(16).toUpperCase().padStart(4, "0")}`;
  const word = /^[\p{L}\p{N}_.+-]{1,20}/u.exec(text.slice(offset, offset + 40));
  return `"${word ? word[0] : String.fromCodePoint(point)}"`;
}
