import { useIntl } from "react-intl";

const dayMs = 86_400_000;

/** A moment on a chart's axis of local days, which has no time zone of its own. */
export const axisDate = (daysSince1970: number): Date => new Date(daysSince1970 * dayMs);

/** Ticks of a time axis in the reader's language: days, or months with their year in long spans. */
export function useDayAxis() {
  const intl = useIntl();
  return (days: number) => ({
    tickFormat: (date: Date) =>
      days > 200
        ? intl.formatDate(date, { month: "short", year: "numeric", timeZone: "UTC" })
        : intl.formatDate(date, { day: "numeric", month: "short", timeZone: "UTC" }),
    locale: intl.locale,
  });
}
