import type { LineTry, Rung, ToldLine, TryHelp, ZeroingTry } from "../../../shared/messages";
import { type Listener, toldReason, toldRung } from "../toldTry";
import { isWrong, type KeptLine, type KeptStep, type KeptZeroing, type StepHelp } from "./keptStep";

/** A zeroing as it may be sent: no rung but those that were asked for. */
export function toldZeroing(kept: KeptZeroing, isOutdated: boolean, to: Listener): ZeroingTry {
  const { answer: _, step: __, help: ___, judgement, ...rest } = kept;
  return { ...rest, outcome: judgement.outcome, help: toldHelp(kept, isOutdated, to), isOutdated };
}

/** A line as it may be sent. */
export function toldLine(kept: KeptLine, isOutdated: boolean, to: Listener): LineTry {
  const { answer: _, step: __, judgement: ___, help: ____, ...rest } = kept;
  return { ...rest, told: toldOf(kept), help: toldHelp(kept, isOutdated, to), isOutdated };
}

/** What is told of a line itself: where one term is at fault, to say which would be the fix. */
export function toldOf({ judgement, help }: Pick<KeptLine, "judgement" | "help">): ToldLine {
  return judgement.outcome === "false" && help !== null ? { ...judgement, diagnosis: null } : judgement;
}

/** The rungs that were given of the help with a step. */
export function givenStepRungs({ rungs, given }: StepHelp): readonly Rung[] {
  return rungs.slice(0, given).map(toldRung);
}

function toldHelp(kept: KeptStep, isOutdated: boolean, to: Listener): TryHelp | null {
  const { help } = kept;
  if (help === null) return null;
  return {
    rungs: givenStepRungs(help),
    hasMore: isWrong(kept) && !isOutdated && help.given < help.rungs.length,
    question: null,
    reason: toldReason(help, to),
  };
}
