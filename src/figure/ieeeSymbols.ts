import { type Stroke, stroke, type Tone } from "./figure";
import { arrowHead, closed, type Frame, line, minusSign, plusSign } from "./frame";

/** Which graphical symbols circuits are drawn with: those of IEC 60617, or those of IEEE Std 315 (ANSI Y32.2). */
export type SymbolSet = "iec" | "ieee";

/** A resistor as a zigzag of three full teeth. */
export function zigzag(frame: Frame, half: number, width: number): string {
  const step = half / 6;
  const teeth = [-5, -3, -1, 1, 3, 5].map((k) => frame.at(k * step, ((k + 5) / 2) % 2 === 0 ? -width : width));
  return line(frame.at(-half, 0), ...teeth, frame.at(half, 0));
}

/** A straight plate and a curved one. */
export function curvedPlates(frame: Frame, half: number, width: number): string {
  const curve = [-1, -0.66, -0.33, 0, 0.33, 0.66, 1].map((share) => frame.at(half + 4 * share * share, share * width));
  return line(frame.at(-half, -width), frame.at(-half, width)) + line(...curve);
}

/** A voltage source: plus and minus inside its outline, `plus` at −s. */
export function signsInside(frame: Frame, half: number, tone: Tone): readonly Stroke[] {
  return [stroke(plusSign(frame.at(-half * 0.48, 0), 4.5) + minusSign(frame.at(half * 0.48, 0), 4.5), tone, 1.8)];
}

/** A current source: an arrow inside its outline that points where the current is driven. */
export function arrowInside(frame: Frame, half: number, tone: Tone): readonly Stroke[] {
  const reach = half * 0.62;
  return [
    stroke(line(frame.at(-reach, 0), frame.at(reach - 6, 0)), tone, 2),
    stroke(arrowHead(frame, reach, 0, 10), tone, 1, { fill: "tone" }),
  ];
}

/** An amplifier as a triangle, its output at the tip; the signs of its inputs stand inside. */
export function amplifierTriangle(frame: Frame, half: number, width: number): string {
  return closed(frame.at(-half, -width), frame.at(half, 0), frame.at(-half, width));
}
