/** How many significant figures of a value count; "all" where none may be rounded away. */
export const FIGURE_CHOICES = [2, 3, 4, 5, 6, "all"] as const;
export type FigureChoice = (typeof FIGURE_CHOICES)[number];

/** How tries are judged: settings of the room's problem. */
export type Trying = {
  readonly figures: FigureChoice;
  /** Whether a value without any unit is wrong, or is taken in the unit asked for. */
  readonly units: "demanded" | "assumed";
  /** As each value comes in, or all together once they are handed in. */
  readonly judging: "atOnce" | "whenHandedIn";
  /** Whether the drawing of an addend's circuit has its sources zeroed, or that is asked first, of everybody in the room. */
  readonly zeroing: "drawn" | "asked";
};

export const USUAL_TRYING: Trying = { figures: 3, units: "demanded", judging: "atOnce", zeroing: "drawn" };
