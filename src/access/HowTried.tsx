"use client";

import { FIGURE_CHOICES, type RoomAction, type Trying } from "../../shared/messages";
import { sheetStyles as styles } from "../paper";

type Props = { readonly trying: Trying; readonly request: (action: RoomAction) => void };

/** How the values are judged that people try where an answer is hidden. */
export function HowTried({ trying, request }: Props) {
  const set = (part: Partial<Trying>) => request({ do: "setTrying", trying: part });
  return (
    <fieldset>
      <legend>Values that are tried</legend>
      <div>
        <label className={styles.choice}>
          <select
            value={trying.figures}
            onChange={({ target }) =>
              set({ figures: FIGURE_CHOICES.find((each) => String(each) === target.value) ?? 3 })
            }
          >
            {FIGURE_CHOICES.map((each) => (
              <option key={each} value={each}>
                {each === "all" ? "All" : each}
              </option>
            ))}
          </select>
          significant figures count
        </label>
        <label className={styles.choice}>
          <input
            type="checkbox"
            checked={trying.units === "demanded"}
            onChange={(event) => set({ units: event.target.checked ? "demanded" : "assumed" })}
          />
          A value needs its unit
        </label>
        {WHEN.map(({ judging, words }) => (
          <label key={judging} className={styles.choice}>
            <input type="radio" name="judging" checked={trying.judging === judging} onChange={() => set({ judging })} />
            {words}
          </label>
        ))}
        <label className={styles.choice}>
          <input
            type="checkbox"
            checked={trying.zeroing === "asked"}
            onChange={(event) => set({ zeroing: event.target.checked ? "asked" : "drawn" })}
          />
          Learners zero the sources of each addend’s circuit
        </label>
        <p className={styles.soft}>
          What was judged stays as it is. Values that wait to be handed in are judged as soon as each is judged at once
          again.
        </p>
      </div>
    </fieldset>
  );
}

const WHEN: readonly { readonly judging: Trying["judging"]; readonly words: string }[] = [
  { judging: "atOnce", words: "Each is judged at once" },
  { judging: "whenHandedIn", words: "All are judged when they are handed in" },
];
