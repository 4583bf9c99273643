/** A number, or a fraction or sum in parentheses, and the unit behind it, which may be the last of several. */
const UNIT_AHEAD =
  /(?<=(?:^|[^\p{L}\d_.])[\d.,/]*\d|\)) (?=(?:[yzafpnµmkMGTPE]?(?:VA|V|A|Ω|S|W|Hz|H|F|s|var)|rad\/s|°)(?![\p{L}\d]))|(?<=[VA]) (?=(?:rms|peak)(?!\p{L}))/gu;

/** A sentence with no-break spaces between numbers and their units, so that no line ends there (SI Brochure, 9th ed., 5.4.3). */
export function unbroken(sentence: string): string {
  return sentence.replace(UNIT_AHEAD, "\u00a0");
}
