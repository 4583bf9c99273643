import { type EntryId, type InkMark, isSeenOn } from "../../shared/board";
import { type Box, boxAround } from "../figure";
import { lineOf, pixelSpot, widthOf } from "./inkPath";

/**
 * The boxes of the drawing, in pixels, that ink covers on the card of some sources (null for all); `sizeOf` measures
 * the words of a note. A line is as many boxes as it has pieces: what it runs around is free.
 */
export function coveredByInk(
  marks: readonly InkMark[],
  openSources: readonly EntryId[] | null,
  sizeOf: (text: string) => { readonly width: number; readonly height: number },
): readonly Box[] {
  return marks
    .filter((mark) => isSeenOn(mark, openSources))
    .flatMap((mark) => {
      if (mark.kind === "note") return [{ ...pixelSpot(mark.at), ...sizeOf(mark.text) }];
      const spots = lineOf(mark).map(pixelSpot);
      return spots.map((spot, i) => boxAround([spots[i - 1] ?? spot, spot], widthOf(mark) / 2));
    });
}
