/** "2-4, 6" -> [2, 3, 4, 6]: the places of rows that a refusal names; what is no place is left out. */
export function placesIn(text: string): number[] {
  return text.split(",").flatMap((part) => {
    const match = /^\s*(\d+)(?:-(\d+))?\s*$/.exec(part);
    if (match === null) return [];
    const first = Number(match[1]);
    const last = Number(match[2] ?? match[1]);
    return Array.from({ length: Math.max(0, last - first + 1) }, (_, index) => first + index);
  });
}
