import { logChoose } from "./log-choose.ts";

/**
 * One-sided exact probability that two yes-or-no records go together at least as well as this if they had
 * nothing to do with each other: P(X >= bothOn) for the hypergeometric X with the table's margins. From 0
 * to 1; 1 where a margin is constant, since nothing better could have come. O(table).
 *
 * Source: Fisher RA (1935) The logic of inductive inference, J R Stat Soc 98:39-54.
 * Example: fisherUpperTail(8, 0, 0, 2) // 0.0222, 1 of the 45 ways
 *
 * @throws RangeError unless all four cells are whole numbers from 0.
 */
export function fisherUpperTail(
  bothOn: number,
  firstOnly: number,
  secondOnly: number,
  bothOff: number,
): number {
  const cells = [bothOn, firstOnly, secondOnly, bothOff];
  if (!cells.every((cell) => Number.isInteger(cell) && cell >= 0))
    throw new RangeError(`cells must be whole numbers from 0; got ${cells.join(", ")}.`);
  const firstOn = bothOn + firstOnly;
  const secondOn = bothOn + secondOnly;
  const total = firstOn + secondOnly + bothOff;
  const greatest = Math.min(firstOn, secondOn);
  let term = Math.exp(
    logChoose(secondOn, bothOn) +
      logChoose(total - secondOn, firstOnly) -
      logChoose(total, firstOn),
  );
  let tail = term;
  for (let k = bothOn; k < greatest; k += 1) {
    term *= ((secondOn - k) * (firstOn - k)) / ((k + 1) * (total - secondOn - firstOn + k + 1));
    tail += term;
  }
  return Math.min(1, tail);
}
