export { AccentBand, AccentMark } from "./AccentBand";
export type { Showing } from "./AddendCard";
export { isSource, sourceAccents } from "./accents";
export { chosenCard, type SumCard, sumCards, TOTAL, titleOfSources } from "./cards";
export {
  type CardTries,
  type HelpActs,
  isToTry,
  lastTry,
  NEITHER,
  type ShownHelp,
} from "./cardTries";
export type { Handing } from "./HandIn";
export { QuantityName } from "./QuantityName";
export { type Groups, SumLine } from "./SumLine";
export { TryPanelPlace } from "./TryPanelPlace";
export { toldText } from "./tryWords";
export { useRefusal } from "./useReturn";
