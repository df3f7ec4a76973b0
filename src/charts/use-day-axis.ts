import { useIntl } from "react-intl";

const dayMs = 86_400_000;
/** Where a span is read in months. */
const monthsFromDays = 200;

/** A moment on a chart's axis of local days, which has no time zone of its own. */
export const axisDate = (daysSince1970: number): Date => new Date(daysSince1970 * dayMs);

/**
 * The days at which a time axis is labelled: whole ones, each once, by weeks in longer spans.
 *
 * @param from days since 1970, with a fraction where the span begins within a day
 * @param most how many labels fit
 */
export function dayTicks(from: number, to: number, most: number): Date[] {
  const first = Math.ceil(from);
  const days = Math.floor(to) - first;
  const fit = Math.max(1, Math.floor(most));
  const raw = Math.max(1, Math.ceil(days / fit));
  const step = raw <= 2 ? raw : Math.ceil(raw / 7) * 7;
  const ticks: Date[] = [];
  for (let day = first; day <= to; day += step) ticks.push(axisDate(day));
  return ticks;
}

/** Ticks of a time axis in the reader's language: days, or months with their year in long spans. */
export function useDayAxis() {
  const intl = useIntl();
  return (from: number, to: number) => {
    const isMonths = to - from > monthsFromDays;
    const tickFormat = (date: Date) =>
      isMonths
        ? intl.formatDate(date, { month: "short", year: "numeric", timeZone: "UTC" })
        : intl.formatDate(date, { day: "numeric", month: "short", timeZone: "UTC" });
    return {
      tickFormat,
      /** The axis as Plot takes it, for a drawing of so many pixels. */
      axis: (width: number) => ({
        type: "utc" as const,
        domain: [axisDate(from), axisDate(to)],
        label: null,
        tickFormat,
        // The days to label, or how many months.
        ticks: isMonths ? width / 130 : dayTicks(from, to, width / 130),
      }),
      locale: intl.locale,
    };
  };
}
