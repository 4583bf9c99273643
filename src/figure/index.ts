export { ACCENTS, type Accent, accentOf } from "./accents";
export { boxAround, boxOfBoxes, growBox, isInside } from "./box";
export { buildFigure, type FigureView } from "./buildFigure";
export { type FigureLayers, FigureSvg } from "./FigureSvg";
export { type Box, type Figure, GRID, type Label, type Run, type Spot, type Stroke, type Tone } from "./figure";
export { spotOf } from "./frame";
export type { SymbolSet } from "./ieeeSymbols";
export { addendRuns, LINE_HEIGHT, primes, symbolRuns } from "./text";
export { PAPER, PAPERS, type Paper, type PaperName, toneColour, toneVariable } from "./theme";
