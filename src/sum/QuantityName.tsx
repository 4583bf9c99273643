import { addendRuns } from "../figure";

type Props = {
  readonly name: string;
  /** Numbers of the addends that are meant, whose primes the name carries; none for the total. */
  readonly primes?: readonly number[];
};

/** A quantity's name as mathematics: letter symbol in italics, index below, the addend's primes. */
export function QuantityName({ name, primes = [] }: Props) {
  return (
    <span className="math">
      {addendRuns(name, primes).map(({ style, text }, i) => {
        // Runs have no identity, and a name is replaced whole.
        const key = `${i} ${text}`;
        if (style === "symbol") return <i key={key}>{text}</i>;
        if (style === "index") return <sub key={key}>{text}</sub>;
        return <span key={key}>{text}</span>;
      })}
    </span>
  );
}
