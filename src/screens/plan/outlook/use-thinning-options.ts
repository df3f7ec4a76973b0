import { useAddress } from "../../../parts/use-address.ts";

export const stepCounts = ["3", "4", "5"] as const;
export const sessionsPerStep = ["1", "3", "5", "10"] as const;
const usualEnds = [180, 300, 600, 900, 1200] as const;
const usualEnd = 600;

export interface ThinningOptions {
  readonly series: string;
  /** Mean of the first step, in seconds. */
  readonly first: number;
  /** Mean of the last step, in seconds. */
  readonly end: number;
  readonly steps: (typeof stepCounts)[number];
  /** Sessions at each step. */
  readonly each: (typeof sessionsPerStep)[number];
}

/** Means to thin down to: the usual ones at least half as long again as now, or else twice what it is. */
export function endsFor(meanSeconds: number): number[] {
  const longer = usualEnds.filter((end) => end >= 1.5 * meanSeconds);
  return longer.length > 0 ? longer : [2 * meanSeconds];
}

/** Names that the address gives to the options. */
type Change = Partial<Record<"series" | "from" | "to" | "steps" | "each", string>>;

/** The options as the address has them; what it lacks or has wrong is as usual. */
export function readThinningOptions(
  given: URLSearchParams,
  meanSeconds: number,
  usualSeries: string,
): ThinningOptions {
  const from = Number(given.get("from"));
  const first = from >= 5 && from <= 10_800 ? from : meanSeconds;
  const ends = endsFor(first);
  const to = [Number(given.get("to")), usualEnd].find((end) => ends.includes(end));
  return {
    series: given.get("series")?.trim().slice(0, 60) || usualSeries,
    first,
    end: to ?? ends.at(-1) ?? 2 * first,
    steps: stepCounts.find((count) => count === given.get("steps")) ?? "4",
    each: sessionsPerStep.find((count) => count === given.get("each")) ?? "3",
  };
}

/**
 * What a thinning list is made of, kept in the address, so that a link or a reload shows the same sessions.
 * The first change pins the series and where it begins: later the plan stands at another step, and its
 * sessions keep their numbers and seeds.
 */
export function useThinningOptions(meanSeconds: number, usualSeries: string) {
  const [params, changeAddress] = useAddress();
  const options = readThinningOptions(params, meanSeconds, usualSeries);
  const change = (changed: Change) =>
    changeAddress({ series: options.series, from: String(options.first), ...changed });
  return { options, ends: endsFor(options.first), change };
}
