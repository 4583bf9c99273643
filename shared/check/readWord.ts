import { complex } from "../solve/complex";
import { comparableName } from "./characters";
import { refuse } from "./entryProblem";
import { measureFactor } from "./givens";
import { readWaveToken } from "./readAngle";
import { type Reader, take } from "./reader";
import { findGiven } from "./readName";
import { loneUnit } from "./readNumber";
import { FUNCTIONS, type FunctionName, type Operand, OTHER, type Token } from "./token";
import { complexValue } from "./value";

const WORD = /[\p{L}_Ω°℧][\p{L}\p{Nd}_₀-₉]*/uy;
const PARENTHESIS_AHEAD = / *(?=\()/y;
const IMAGINARY = /^[ij]\d/;
/** `V(a)`, `V(a, b)` and `I(R1)`, which are no volts or amperes times something. */
const QUANTITY_CALL = /[VUI]_? ?\( *\p{L}[\p{L}\p{Nd}_]* *(?:, *\p{L}[\p{L}\p{Nd}_]* *)?\)/uy;
/** `Va`, `V_a`, `I_R1`, `Vth`. */
const QUANTITY_WORD = /^[VUI]_?\p{L}[\p{L}\p{Nd}_]*$/u;

/** Reads a part's name, a unit, a function, a constant: whatever begins with a letter here. Null where nothing does. */
export function readWordToken(reader: Reader): Token | null {
  const start = reader.at;
  const call = reader.names === null ? take(reader, QUANTITY_CALL)?.[0] : undefined;
  if (call !== undefined) {
    if (findGiven(reader, call.charAt(0)) === undefined) return refuse({ code: "quantityInValue", name: call });
    reader.at = start;
  }
  const word = take(reader, WORD)?.[0];
  if (word === undefined) return null;
  const given = findGiven(reader, word);
  if (given === null) return refuse({ code: "noValue", name: word });
  if (given !== undefined) return { kind: "operand", text: word, value: given, writing: OTHER };
  const operand = constant(reader, word) ?? loneUnit(word, reader.tokens.at(-1)?.kind === "close");
  if (operand) return { ...operand, text: word };
  const name = FUNCTIONS.find((known) => known === word.toLowerCase());
  if (take(reader, PARENTHESIS_AHEAD)) {
    return name ? readCall(reader, name) : refuse({ code: "unknownFunction", name: word });
  }
  if (name) return refuse({ code: "argumentMissing", name });
  return imaginary(reader, word, start) ?? unknownName(reader, word);
}

function readCall(reader: Reader, name: FunctionName): Token {
  const wave = name === "cos" || name === "sin" ? readWaveToken(reader, name) : null;
  if (wave) return { kind: "operand", ...wave, writing: OTHER };
  return { kind: "call", name, text: name };
}

/** π, the imaginary unit, the radian, and the words that say in which measure a phasor is. */
function constant({ measure }: Reader, word: string): Operand | null {
  const operand = (re: number, im = 0): Operand => ({
    kind: "operand",
    value: complexValue(complex(re, im)),
    writing: OTHER,
  });
  switch (word.toLowerCase()) {
    case "π":
    case "pi":
      return operand(Math.PI);
    case "rad":
      return operand(1);
    case "j":
    case "i":
      return word === "I" || word === "J" ? null : operand(0, 1);
    case "rms":
    case "peak":
      return operand(measureFactor(word.toLowerCase() as "rms" | "peak", measure));
    default:
      return null;
  }
}

/** `j4` is j · 4: the unit alone is read, and reading goes on behind it. */
function imaginary(reader: Reader, word: string, start: number): Token | null {
  if (!IMAGINARY.test(word)) return null;
  reader.at = start + 1;
  return { kind: "operand", text: "j", value: complexValue(complex(0, 1)), writing: OTHER };
}

function unknownName(reader: Reader, name: string): never {
  // A missing or wrong number behind the letter is the usual slip.
  const letters = comparableName(name).replace(/\d+$/, "");
  if (reader.names === null && QUANTITY_WORD.test(name)) return refuse({ code: "quantityInValue", name });
  const similar = [...reader.givens.keys()].filter((given) => comparableName(given).replace(/\d+$/, "") === letters);
  return refuse({ code: "unknownName", name, similar: similar.slice(0, 4) });
}
