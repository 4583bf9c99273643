import { createHash } from "node:crypto";
import { cardOf, TOTAL_CARD, tidyCard } from "../../../shared/messages";
import type { Report } from "../../../shared/solve";

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

function hash(value: unknown): string {
  return createHash("sha256").update(JSON.stringify(value)).digest("base64url").slice(0, 22);
}
