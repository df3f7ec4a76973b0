import type { ReactNode } from "react";
import { useSay } from "../text/text.tsx";

export type SymbolName = "chime" | "working" | "idle" | "day" | "goal";

/** Line drawings for those who do not read yet, on a field of 48 by 48. */
const drawings: Readonly<Record<SymbolName, ReactNode>> = {
  // A bowl that is struck, and its ringing.
  chime: (
    <>
      <path d="M10 26h28c0 9-6 15-14 15s-14-6-14-15z" />
      <path d="M19 41h10M36 6 27 20" />
      <circle cx="26" cy="21.5" r="2" />
      <path d="M6 14c-3 5-3 11 0 16M42 14c3 5 3 11 0 16" />
    </>
  ),
  // A pencil that leaves a line behind.
  working: (
    <>
      <path d="M31 5l9 8-20 23-12 5 3-13z" />
      <path d="M26 11l9 8M11 28l9 8" />
      <path d="M18 44c3-4 5-4 7 0s5 4 7 0 5-4 8 0" />
    </>
  ),
  // A cloud with nothing in it, drifting off.
  idle: (
    <>
      <path d="M15 31h20a8 8 0 0 0 1-16 11 11 0 0 0-21-2 9 9 0 0 0 0 18z" />
      <circle cx="13" cy="38" r="2.5" />
      <circle cx="7" cy="44" r="1.5" />
    </>
  ),
  // A leaf of a calendar.
  day: (
    <>
      <rect x="7" y="10" width="34" height="32" rx="3" />
      <path d="M7 20h34M16 5v9M32 5v9" />
      <circle cx="17" cy="30" r="2.5" />
    </>
  ),
  // A little flag on a hill.
  goal: (
    <>
      <path d="M16 38V6l20 8-20 8" />
      <path d="M4 43c4-7 20-7 26-2s10 2 14 2" />
    </>
  ),
};

/** A drawing with its name for those who do not see it; without `named` it only repeats what is said beside. */
export function PlainSymbol({
  name,
  sizeMm,
  named,
}: {
  name: SymbolName;
  sizeMm: number;
  named?: boolean;
}) {
  const say = useSay();
  const size = { width: `${sizeMm}mm`, height: `${sizeMm}mm` };
  if (!named) {
    return (
      <svg aria-hidden="true" viewBox="0 0 48 48" className="symbol" style={size}>
        {drawings[name]}
      </svg>
    );
  }
  return (
    <svg
      role="img"
      aria-label={say(`print.symbol.${name}`)}
      viewBox="0 0 48 48"
      className="symbol"
      style={size}
    >
      {drawings[name]}
    </svg>
  );
}
