import type { Complex } from "./complexNumber";

/** A wave of so many volts or amperes at its crest, for cos(ωt + phase); ω 0 is a constant. */
export type Wave = { readonly peak: number; readonly degrees: number; readonly omega: number };

/** What a branch does; amounts in coherent SI units. */
export type Law =
  | { readonly kind: "resistor"; readonly ohms: number }
  | { readonly kind: "inductor"; readonly henries: number }
  | { readonly kind: "capacitor"; readonly farads: number }
  /** An impedance that no part has, which somebody puts in by mistake. */
  | { readonly kind: "impedance"; readonly z: Complex }
  | { readonly kind: "voltage-source"; readonly wave: Wave }
  | { readonly kind: "current-source"; readonly wave: Wave }
  | { readonly kind: "vcvs" | "vccs"; readonly gain: number; readonly plus: string; readonly minus: string }
  | { readonly kind: "ccvs" | "cccs"; readonly gain: number; readonly through: string }
  | { readonly kind: "short" }
  | { readonly kind: "open" };

/** Voltage is that of `from` less that of `to`, current flows from `from` to `to` through the branch. */
export type Branch = { readonly id: string; readonly from: string; readonly to: string; readonly law: Law };

export const isSource = ({ law }: Branch): boolean => law.kind === "voltage-source" || law.kind === "current-source";
export const isDependent = ({ law }: Branch): boolean => ["vcvs", "vccs", "ccvs", "cccs"].includes(law.kind);
export const isReactive = ({ law }: Branch): boolean => law.kind === "inductor" || law.kind === "capacitor";

/** Whether a branch gives a voltage, independent or not. */
export const givesVoltage = ({ law }: Branch): boolean => ["voltage-source", "vcvs", "ccvs"].includes(law.kind);

/** The branches with some laws exchanged. */
export function relaid(branches: readonly Branch[], laws: Readonly<Record<string, Law>>): Branch[] {
  return branches.map((branch) => ({ ...branch, law: laws[branch.id] ?? branch.law }));
}

/** The branches with one of them at other nodes. */
export function rejoined(
  branches: readonly Branch[],
  id: string,
  ends: Partial<Pick<Branch, "from" | "to">>,
): Branch[] {
  return branches.map((branch) => (branch.id === id ? { ...branch, ...ends } : branch));
}

export function branchOf(branches: readonly Branch[], id: string): Branch {
  const found = branches.find((branch) => branch.id === id);
  if (!found) throw new Error(`no branch ${id}`);
  return found;
}

export function ohmsOf(branches: readonly Branch[], id: string): number {
  const { law } = branchOf(branches, id);
  if (law.kind !== "resistor") throw new Error(`${id} is no resistor`);
  return law.ohms;
}

export function touches({ from, to }: Branch, node: string): boolean {
  return from === node || to === node;
}

/** How many branches end at a node. */
export function endsAt(branches: readonly Branch[], node: string): number {
  return branches.filter((branch) => touches(branch, node)).length;
}
