import { readAnyQuantity, readSourceValue, toNumber } from "../quantity";
import { fromPolar } from "../solve/complex";
import { omegaOf } from "../solve/network";
import { refuse } from "./entryProblem";
import { type Reader, take } from "./reader";
import { complexValue, type Value, waveValue } from "./value";

const ANGLE_MARK = /[∠<] */y;
const PHASE = /[+-]? *(?:\d[\d.,]*)? *(?:(?:π|pi)(?: *\/ *\d+)?)? *(?:°|deg\b|rad\b)?/iy;
const TIME = /(?:[^\p{L}_]|π|pi)t(?![\p{L}\p{Nd}_])/u;

/** Reads `∠ 45°` as the phasor of size 1 and that phase; null where no angle mark stands here. */
export function readPhaseToken(reader: Reader): { readonly value: Value; readonly text: string } | null {
  const start = reader.at;
  if (!take(reader, ANGLE_MARK)) return null;
  const phase = take(reader, PHASE)?.[0].trim() ?? "";
  if (phase === "") return refuse({ code: "phaseMissing" });
  // The readers of sources know every way to write a phase; amplitude and frequency are only there to make a source.
  const read = readSourceValue(`1 V ∠ ${phase} @ 1 Hz`, "V");
  const text = reader.text.slice(start, reader.at).trim();
  if (!read.ok) return refuse({ code: "quantity", problem: { ...read.problem, text } });
  if (read.value.kind === "dc") throw new Error("readPhaseToken: a source with a phase is constant");
  return { value: complexValue(fromPolar(1, toNumber(read.value.phase))), text };
}

/**
 * Reads `(1000 t + 30°)` behind cos or sin as the function of time of amplitude 1; null, and nothing read, where the
 * parentheses hold no time.
 */
export function readWaveToken(
  reader: Reader,
  name: "cos" | "sin",
): { readonly value: Value; readonly text: string } | null {
  const end = closingOf(reader.text, reader.at);
  const inside = reader.text.slice(reader.at, end + 1);
  if (end === -1 || !TIME.test(inside)) return null;
  const text = name + inside;
  const read = readAnyQuantity(`${text} V`);
  if (!read.ok) return refuse({ code: "quantity", problem: { ...read.problem, text } });
  if (read.value.kind !== "sinusoid") throw new Error("readWaveToken: a cosine of time is constant");
  reader.at = end + 1;
  return { value: waveValue(omegaOf(read.value.frequency), fromPolar(1, toNumber(read.value.phase))), text };
}

/** The place of the parenthesis that closes the one at `open`; −1 where there is none. */
function closingOf(text: string, open: number): number {
  let depth = 0;
  for (let i = open; i < text.length; i++) {
    if (text[i] === "(") depth += 1;
    if (text[i] === ")" && --depth === 0) return i;
  }
  return -1;
}
