import type { Circuit, DependentSource, IndependentSource, PartId } from "../circuit";
import { isDependentSource, isIndependentSource, unreachable } from "../circuit";
import { isZero } from "../quantity";
import { type Mistake, mistake } from "./mistakes/mistake";

/** What a learner makes of a source on the way to one addend's circuit. */
export type ZeroingDecision = "kept" | "short" | "open";

/** What becomes of the decisions for one addend's circuit. Plain data. */
export type ZeroingJudgement =
  | { readonly outcome: "right" }
  /** One fault for each source that is not what it should be, in the circuit's order. */
  | { readonly outcome: "wrong"; readonly faults: readonly ZeroingFault[] }
  /** Something was decided of parts that are no sources of this circuit: nothing is judged. */
  | { readonly outcome: "unread"; readonly unknown: readonly string[] };
export type ZeroingFault = { readonly source: PartId; readonly mistake: Mistake };

/**
 * Judges what was made of each source for the circuit in which `acting` act: by the law that its place gets, so that a
 * source of 0 V that is kept is the short that it should be. A source of which nothing was decided is kept. Independent
 * sources that act are to be kept, the others to be zeroed: a voltage source becomes a short, a current source an open.
 * Dependent sources are kept.
 */
export function judgeZeroing(
  { parts }: Circuit,
  acting: readonly PartId[],
  decisions: ReadonlyMap<PartId, ZeroingDecision>,
): ZeroingJudgement {
  const sources = parts.filter((part) => isIndependentSource(part) || isDependentSource(part));
  const independent = new Set(sources.filter(isIndependentSource).map(({ id }) => id));
  const all = new Set(sources.map(({ id }) => id));
  const unknown = [
    ...acting.filter((id) => !independent.has(id)),
    ...[...decisions.keys()].filter((id) => !all.has(id)),
  ];
  if (unknown.length > 0) return { outcome: "unread", unknown };
  const faults = sources.flatMap((source): ZeroingFault[] => {
    const made = lawOf(source, decisions.get(source.id) ?? "kept");
    const wanted = lawOf(source, isDependentSource(source) || acting.includes(source.id) ? "kept" : zeroed(source));
    return made === wanted ? [] : [{ source: source.id, mistake: faultOf(source, made, acting) }];
  });
  return faults.length === 0 ? { outcome: "right" } : { outcome: "wrong", faults };
}

type Source = IndependentSource | DependentSource;

/** How voltage and current are tied at a place. */
type PlaceLaw = "source" | "short" | "open";

function lawOf(source: Source, decision: ZeroingDecision): PlaceLaw {
  if (decision !== "kept") return decision;
  return givesNothing(source) ? zeroed(source) : "source";
}

/** What a source is at 0 V or 0 A. */
function zeroed({ kind }: Source): "short" | "open" {
  switch (kind) {
    case "voltage-source":
    case "vcvs":
    case "ccvs":
      return "short";
    case "current-source":
    case "vccs":
    case "cccs":
      return "open";
    default:
      return unreachable(kind);
  }
}

function givesNothing(source: Source): boolean {
  if (isDependentSource(source)) return isZero(source.gain);
  const value = source.kind === "voltage-source" ? source.voltage : source.current;
  return isZero(value.kind === "dc" ? value.value : value.amplitude);
}

function faultOf(source: Source, made: PlaceLaw, acting: readonly PartId[]): Mistake {
  const { id } = source;
  if (isDependentSource(source)) return mistake("dependentZeroed", [id]);
  if (acting.includes(id)) return mistake("actingZeroed", [id]);
  if (made === "source") return mistake("sourceLeftOn", [id]);
  return mistake(source.kind === "voltage-source" ? "voltageSourceOpened" : "currentSourceShorted", [id]);
}
