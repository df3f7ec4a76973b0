const fewestSeconds = 5;
const mostSeconds = 10_800;
const mostSteps = 12;

/**
 * Means of the cue steps as a teacher types them: minutes, densest first, parted by spaces or
 * semicolons; "1,5" and "1.5" are both a minute and a half.
 *
 * @returns seconds; null when a part is no length, or a step is not thinner than the one before it
 */
export function readSteps(text: string): number[] | null {
  const parts = text.split(/[\s;]+/).filter((part) => part !== "");
  if (parts.length === 0 || parts.length > mostSteps) return null;
  const means = parts.map((part) =>
    /^\d+([.,]\d+)?$/.test(part) ? Math.round(60 * Number(part.replace(",", "."))) : Number.NaN,
  );
  const fits = means.every(
    (mean, at) => mean >= fewestSeconds && mean <= mostSeconds && mean > (means[at - 1] ?? 0),
  );
  return fits ? means : null;
}
