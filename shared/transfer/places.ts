/** As much as a refusal can carry. */
const longest = 480;

/**
 * [3, 4, 5, 9] -> "3-5, 9": the places of rows that a refusal names, smallest first; cut with an ellipsis
 * when there are very many.
 */
export function placesText(places: readonly number[]): string {
  const runs: [first: number, last: number][] = [];
  for (const place of places) {
    const run = runs.at(-1);
    if (run !== undefined && run[1] === place - 1) run[1] = place;
    else runs.push([place, place]);
  }
  const text = runs
    .map(([first, last]) => (first === last ? first : `${first}-${last}`))
    .join(", ");
  return text.length <= longest ? text : `${text.slice(0, longest)}…`;
}

/** "3-5, 9" -> [3, 4, 5, 9]; what is no place is left out. */
export function placesIn(text: string): number[] {
  return text.split(",").flatMap((part) => {
    const match = /^\s*(\d+)(?:-(\d+))?\s*$/.exec(part);
    if (match === null) return [];
    const first = Number(match[1]);
    const last = Number(match[2] ?? match[1]);
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
  });
}
