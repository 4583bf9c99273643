export { isSource, sourceAccents } from "./accents";
export { chosenCard, type SumCard, sumCards, TOTAL } from "./cards";
export { QuantityName } from "./QuantityName";
export { SumLine } from "./SumLine";
