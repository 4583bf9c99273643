import { type Box, boxOfBoxes, type Figure, growBox, PAPERS, type Paper } from "../figure";

/** Drawings that leave the page stand on white. */
export const WHITE: Paper = { ...PAPERS.light, sheet: "#ffffff" };

const MARGIN = 24;

/** The sheet of a drawing: the figure and what lies on it with a margin, on whole pixels, so that no edge of the paper is half covered. */
export function boxOnPaper(figure: Figure, layers: Box | null): Box {
  const { x, y, width, height } = growBox(layers ? boxOfBoxes([figure.extent, layers]) : figure.extent, MARGIN);
  const [left, top] = [Math.floor(x), Math.floor(y)];
  return { x: left, y: top, width: Math.ceil(x + width) - left, height: Math.ceil(y + height) - top };
}
