import { useState } from "react";

const isSame = (one: unknown, other: unknown): boolean =>
  JSON.stringify(one) === JSON.stringify(other);

export interface SharedForm<Facts> {
  readonly facts: Facts;
  readonly setFacts: (facts: Facts) => void;
  /** What the form goes on from, for the desktop side to compare with what it keeps. */
  readonly base: Facts;
  /** Whether another window saved something else while this one was being filled in. */
  readonly isOld: boolean;
  readonly takeKept: () => void;
  readonly keepMine: () => void;
}

/**
 * A form of something that other windows may save meanwhile: untouched it follows what is kept; touched, it
 * keeps what was typed and says that there is something newer.
 */
export function useSharedForm<Facts>(kept: Facts): SharedForm<Facts> {
  const [base, setBase] = useState(kept);
  const [facts, setFacts] = useState(kept);
  const isOld = !isSame(base, kept);
  const takeKept = () => {
    setBase(kept);
    setFacts(kept);
  };
  if (isOld && (isSame(facts, base) || isSame(facts, kept))) takeKept();
  return { facts, setFacts, base, isOld, takeKept, keepMine: () => setBase(kept) };
}
