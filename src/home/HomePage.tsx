import { Wordmark } from "../paper";
import styles from "./home.module.css";
import { JoinByCode } from "./JoinByCode";
import { RoomsVisited } from "./RoomsVisited";
import { type ExampleChoice, StartRoom } from "./StartRoom";

type Props = { readonly examples: readonly ExampleChoice[] };

/** The way in: join by a code, go back to a room, or start one. */
export function HomePage({ examples }: Props) {
  return (
    <main className={styles.home}>
      <h1>
        <Wordmark />
      </h1>
      <p className={styles.lead}>
        A shared board for linear circuits, solved one source at a time. Draw the circuit once; each source’s own
        circuit, its part of the answer and the sum stand beside it, in everyone’s browser.
      </p>
      <section aria-labelledby="join">
        <h2 id="join">Join a room</h2>
        <JoinByCode />
      </section>
      <RoomsVisited />
      <section aria-labelledby="start">
        <h2 id="start">Start a room</h2>
        <StartRoom examples={examples} />
      </section>
      <p className={styles.caution}>
        Addend is for analysis on paper. Its numbers do not make a circuit safe to build or to touch; local codes and
        licensed practice decide that.
      </p>
    </main>
  );
}
