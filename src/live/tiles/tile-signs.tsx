import type { ReactNode } from "react";

type SignName = "yes" | "no" | "away" | "undo" | "recorded";

/**
 * For those who do not read yet, on a field of 48 by 48: yes and no differ by form, and neither looks like
 * praise or blame.
 */
const drawings: Readonly<Record<SignName, ReactNode>> = {
  // A tick in a round stone.
  yes: (
    <>
      <circle cx="24" cy="24" r="19" />
      <path d="M14.5 25l7 7 13-15" />
    </>
  ),
  // A level stroke in an upright leaf, as the minus on the paper card.
  no: (
    <>
      <rect x="6" y="6" width="36" height="36" rx="4" />
      <path d="M15 24h18" />
    </>
  ),
  // A door that stands open.
  away: (
    <>
      <path d="M12 43V7h18v36M6 43h36" />
      <path d="M30 11l9 5v27" />
      <path d="M25 26v.5" />
    </>
  ),
  undo: <path d="M17 10L8 19l9 9M9 19h18a11 11 0 0 1 0 22h-8" />,
  // A pebble laid down.
  recorded: (
    <>
      <path
        className="tile-stone"
        d="M8 27c-1-8 6-14 17-14 10 0 16 6 15 13-1 7-8 11-16 11-9 0-15-3-16-10z"
      />
      <path d="M16 23c5-4 12-4 17-1M6 43h36" />
    </>
  ),
};

/** Repeats what stands beside it in words or in the name of its control. */
export function TileSign({ name }: { name: SignName }) {
  return (
    <svg className={`tile-sign tile-sign-${name}`} viewBox="0 0 48 48" aria-hidden="true">
      {drawings[name]}
    </svg>
  );
}
