/** What of a pointer's event says whose it is. */
type Press = { readonly pointerId: number; readonly pointerType: string };

/**
 * Tells a pen from the hand that holds it: while a pen is down, and until the hand that came with it is lifted, what
 * fingers and palm do is nobody's gesture.
 */
export class Palm {
  #pen: number | null = null;
  readonly #resting = new Set<number>();
  readonly #touching = new Set<number>();

  /** A pointer goes down. "pen": a pen, so what touches had begun is to be given up; "rests": part of the hand. */
  down({ pointerId, pointerType }: Press): "pen" | "rests" | "acts" {
    if (pointerType === "pen") {
      for (const touch of this.#touching) this.#resting.add(touch);
      this.#pen = pointerId;
      return "pen";
    }
    if (pointerType !== "touch") return "acts";
    this.#touching.add(pointerId);
    if (this.#pen !== null) this.#resting.add(pointerId);
    return this.#pen !== null ? "rests" : "acts";
  }

  rests({ pointerId }: Press): boolean {
    return this.#resting.has(pointerId);
  }

  /** A pointer goes up or is taken away; whether it was part of the hand. */
  up({ pointerId }: Press): boolean {
    if (this.#pen === pointerId) this.#pen = null;
    this.#touching.delete(pointerId);
    return this.#resting.delete(pointerId);
  }
}
