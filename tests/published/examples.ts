import { readFileSync } from "node:fs";
import { exactValue, type RawCircuit } from "../independent/elements";
import { omegasOf } from "../independent/tableau";

/** A worked problem with printed answers. `source` says where it stands; "from memory" where it could not be opened. */
export type Example = RawCircuit & {
  readonly id: string;
  readonly topic: string;
  readonly source: string;
  readonly source_kind: "retrieved" | "from memory";
  /** "rms" where the source prints rms amplitudes; peak or unsaid otherwise. */
  readonly amplitude_kind?: "rms";
  readonly wanted: readonly ExampleWanted[];
  readonly partials: readonly ExamplePartial[];
};

export type ExampleWanted = {
  readonly quantity: string;
  readonly through: string | null;
  readonly from: string | null;
  readonly to: string | null;
  /** Printed answer, or one term a frequency. */
  readonly answer: string | readonly ExampleTerm[];
  readonly rounded_to: string;
};

export type ExampleTerm = { readonly omega: string; readonly answer: string; readonly rounded_to?: string };

/** What the source prints for some of the independent sources acting without the others. */
export type ExamplePartial = {
  readonly source: string | readonly string[];
  readonly of: string;
  readonly answer: string;
  readonly rounded_to?: string;
};

const FILE = new URL("./published-examples.json", import.meta.url);

export const examples: readonly Example[] = JSON.parse(readFileSync(FILE, "utf8"));

/**
 * These ask for time constants and values at an instant after a switch moved. Addend answers steady states, so the
 * published numbers of these three are not compared; that it says so in words is what their test asserts.
 */
export const transientExamples = examples.filter((example) => example.topic === "transient-first-order");
export const steadyExamples = examples.filter((example) => example.topic !== "transient-first-order");

/** One printed number: of which wanted quantity, with which sources acting, of which frequency. */
export type Check = {
  readonly wanted: ExampleWanted;
  readonly wantedIndex: number;
  /** Null where all sources act together. */
  readonly acting: readonly string[] | null;
  /** In rad/s as printed; null where the source prints one answer. */
  readonly omega: string | null;
  readonly answer: string;
  readonly roundedTo: string;
};

/** Every number that a published example prints: its wanted quantities term by term, then its partials. */
export function checksOf(example: Example): readonly Check[] {
  const totals = example.wanted.flatMap((wanted, wantedIndex): Check[] => {
    const check = { wanted, wantedIndex, acting: null, roundedTo: wanted.rounded_to };
    if (typeof wanted.answer === "string") return [{ ...check, omega: null, answer: wanted.answer }];
    return wanted.answer.map((term) => ({ ...check, ...term, roundedTo: term.rounded_to ?? wanted.rounded_to }));
  });
  return [...totals, ...example.partials.map((partial) => partialCheck(example, partial))];
}

function partialCheck(example: Example, partial: ExamplePartial): Check {
  const wantedIndex = Number(/^wanted (\d+)$/.exec(partial.of)?.[1] ?? Number.NaN);
  const wanted = example.wanted[wantedIndex];
  if (!wanted) throw new Error(`${example.id}: a partial of ${partial.of}, which does not exist`);
  const acting = typeof partial.source === "string" ? [partial.source] : partial.source;
  const roundedTo = partial.rounded_to ?? wanted.rounded_to;
  return { wanted, wantedIndex, acting, omega: null, answer: partial.answer, roundedTo };
}

/** The frequency (rad/s) of a printed number, 0 for a constant; a partial has that of its sources. */
export function omegaOfCheck(example: Example, { omega, acting }: Check): number {
  if (omega !== null) return exactValue(omega).valueOf();
  const isActing = (id: string) => acting === null || acting.includes(id);
  const omegas = omegasOf({ elements: example.elements.filter((element) => isActing(element.id)) });
  if (omegas.length > 1) throw new Error(`${example.id}: one answer for the frequencies ${omegas.join(", ")}`);
  return omegas[0] ?? 0;
}

/** Title of a group of tests: where the example stands, and whether anybody could open it. */
export function exampleTitle({ source, source_kind, id }: Example): string {
  return `${source}${source_kind === "from memory" ? " (from memory)" : ""} [${id}]`;
}

export function checkTitle({ wanted, acting, omega, answer, roundedTo }: Check): string {
  const { quantity, through, from, to } = wanted;
  const ends = from === null ? "" : ` from ${from} to ${to}`;
  const what = `${quantity}${through === null ? "" : ` of ${through}`}${ends}`;
  const by = acting === null ? "" : ` by ${acting.join(" and ")} alone`;
  return `${what}${by}${omega === null ? "" : ` at ${omega}`} is ${answer} (${roundedTo})`;
}
