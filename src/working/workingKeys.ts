/** What the keyboard does among worked lines, as the sheet of keys lists it. */
export const WORKING_KEYS: readonly { readonly keys: string; readonly what: string }[] = [
  { keys: "Up, Down", what: "From line to line; its parts light up on the board" },
  { keys: "Home, End", what: "To the first or the last line" },
  { keys: "Enter", what: "Open the circuit that is drawn beside the line" },
  { keys: "P", what: "Pin the line to the board" },
  { keys: "C", what: "Choose how to copy the line" },
  { keys: "L, Shift + L", what: "For the instructor: show the next line, take one back" },
];
