/**
 * What marks an independent source wherever it appears: a colour together with a line pattern and a mark of its own,
 * never colour alone. Colours follow the Okabe-Ito set, darkened (on dark paper, lightened) until each is at least 4.5:1
 * on the paper, so lines and text share them.
 */
export type Accent = {
  /** On light paper, and in print. */
  readonly colour: string;
  readonly onDark: string;
  /** Dash pattern in pixels; empty for a full line. */
  readonly dash: readonly number[];
  /** Path data of the mark in a 12 × 12 square. */
  readonly mark: string;
  readonly markName: string;
};

export const ACCENTS: readonly Accent[] = [
  { colour: "#0068a3", onDark: "#5cb3ec", dash: [], mark: "M6 1A5 5 0 0 1 6 11A5 5 0 0 1 6 1Z", markName: "disc" },
  { colour: "#b34700", onDark: "#ff8f55", dash: [14, 4], mark: "M1.5 1.5H10.5V10.5H1.5Z", markName: "square" },
  { colour: "#007a58", onDark: "#35c79a", dash: [3, 4], mark: "M6 0.8L11.4 10.6H0.6Z", markName: "triangle" },
  {
    colour: "#a03d78",
    onDark: "#e795c4",
    dash: [14, 4, 3, 4],
    mark: "M6 0.2L11.8 6L6 11.8L0.2 6Z",
    markName: "diamond",
  },
  {
    colour: "#7d5700",
    onDark: "#dcae4c",
    dash: [8, 4],
    mark: "M4.2 0.8H7.8V4.2H11.2V7.8H7.8V11.2H4.2V7.8H0.8V4.2H4.2Z",
    markName: "cross",
  },
  { colour: "#2c6585", onDark: "#94c3de", dash: [14, 4, 3, 4, 3, 4], mark: "M0.6 1.4H11.4L6 11.2Z", markName: "wedge" },
  {
    colour: "#6b6300",
    onDark: "#cfc44a",
    dash: [6, 3, 1, 3],
    mark: "M3 0.8H9L12 6L9 11.2H3L0 6Z",
    markName: "hexagon",
  },
];

/** The accent of the n-th source. Beyond the last the row begins again; names tell those apart. */
export function accentOf(index: number): Accent {
  return ACCENTS[index % ACCENTS.length] as Accent;
}
