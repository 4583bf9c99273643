import { primes, symbolRuns } from "../figure";

/** A quantity's name as mathematics: letter symbol in italics, index below, the addend's primes. */
export function QuantityName({ name, prime = 0 }: { readonly name: string; readonly prime?: number }) {
  return (
    <span className="math">
      {symbolRuns(name).map((run) =>
        run.style === "symbol" ? (
          <i key={run.text}>{run.text}</i>
        ) : run.style === "index" ? (
          <sub key={run.text}>{run.text}</sub>
        ) : (
          <span key={run.text}>{run.text}</span>
        ),
      )}
      {prime > 0 && <span>{primes(prime)}</span>}
    </span>
  );
}
