import { createHash } from "node:crypto";
import { cardOf, TOTAL_CARD, tidyCard } from "../../../shared/messages";
import type { Report } from "../../../shared/solve";
import type { KeptStep } from "./keptStep";

// Keys of what a step was judged in: another one, and what was said of the step may not hold any more.

/** The sources of a circuit, as far as zeroing goes: which there are, of which kind, and which give nothing. */
export function sourcesKey(report: Report): string {
  const sources = report.sources.map(({ id, kind, value }) => [id, kind, Number.parseFloat(value) === 0]);
  return hash(sources.sort((a, b) => String(a[0]).localeCompare(String(b[0]))));
}

/** All voltages and currents of a card's circuit; null where there is no such card. */
export function circuitKey({ nodes, parts, partials }: Report, card: string): string | null {
  if (card === TOTAL_CARD) return hash([nodes, parts]);
  const own = partials.find(({ sources }) => cardOf(sources) === tidyCard(card));
  return own ? hash([own.nodes, own.parts]) : null;
}

/** Tells of steps whether they were judged in another circuit than that of a report; null is the report of a board without any. */
export class StepKeys {
  readonly #report: Report | null;
  /** By step and card, made as they are asked for. */
  readonly #keys = new Map<string, string | null>();

  constructor(report: Report | null) {
    this.#report = report;
  }

  isOutdated({ step, card, answer }: Pick<KeptStep, "step" | "card" | "answer">): boolean {
    const place = JSON.stringify([step, card]);
    if (!this.#keys.has(place)) this.#keys.set(place, this.#keyOf(step, card));
    return this.#keys.get(place) !== answer;
  }

  #keyOf(step: KeptStep["step"], card: string): string | null {
    if (this.#report === null) return null;
    // A card without its own circuit is gone, and with it what was zeroed for it.
    const ofCircuit = circuitKey(this.#report, card);
    return step === "line" || ofCircuit === null ? ofCircuit : sourcesKey(this.#report);
  }
}

function hash(value: unknown): string {
  return createHash("sha256").update(JSON.stringify(value)).digest("base64url").slice(0, 22);
}
