import { useId } from "react";

/** Room for handwriting in pixels: 9 mm at the 96 pixels an inch of CSS; common practice, no source. */
const lineGapPx = 34;

/** Lines to write on, as many as the room above the foot of the sheet takes. */
export function LinesLeft() {
  const id = useId();
  return (
    <svg className="lines-left" aria-hidden="true">
      <pattern id={id} width="100%" height={lineGapPx} patternUnits="userSpaceOnUse">
        <line x1="0" x2="100%" y1={lineGapPx - 2} y2={lineGapPx - 2} />
      </pattern>
      <rect width="100%" height="100%" fill={`url(#${id})`} />
    </svg>
  );
}
