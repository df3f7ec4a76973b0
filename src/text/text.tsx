import type { ReactNode } from "react";
import { IntlProvider, useIntl } from "react-intl";
import { catalogues, type Language, type MessageId } from "./catalogue.ts";

type Values = Record<string, string | number | Date | boolean | null | undefined>;

/** Words one message in the reader's language; ids are checked by the compiler. */
export type Say = (id: MessageId, values?: Values) => string;

/** The function with which a screen words everything it shows. */
export function useSay(): Say {
  const intl = useIntl();
  return (id, values) => intl.formatMessage({ id }, values);
}

/** Dates, times, numbers and percentages as the reader's language writes them. */
export function useFormats() {
  const intl = useIntl();
  return {
    /** 0.873 -> "87%" */
    percent: (share: number) =>
      intl.formatNumber(share, { style: "percent", maximumFractionDigits: 0 }),
    number: (value: number, digits = 0) =>
      intl.formatNumber(value, { maximumFractionDigits: digits, minimumFractionDigits: digits }),
    /** A school-local day YYYY-MM-DD, which has no zone of its own. */
    day: (day: string) =>
      intl.formatDate(`${day}T12:00:00Z`, {
        weekday: "short",
        day: "numeric",
        month: "short",
        timeZone: "UTC",
      }),
    /** With its year, for what is kept longer than one. */
    fullDay: (day: string) =>
      intl.formatDate(`${day}T12:00:00Z`, {
        day: "numeric",
        month: "short",
        year: "numeric",
        timeZone: "UTC",
      }),
    shortDay: (day: string) =>
      intl.formatDate(`${day}T12:00:00Z`, { day: "numeric", month: "short", timeZone: "UTC" }),
    /** The wall-clock time at the place where it was stamped. */
    time: (wallMs: number, offsetMinutes: number) =>
      intl.formatTime(wallMs + offsetMinutes * 60_000, {
        hour: "numeric",
        minute: "2-digit",
        timeZone: "UTC",
      }),
    /** 754 -> "12:34" */
    clock: (seconds: number) => {
      const whole = Math.max(0, Math.floor(seconds));
      return `${Math.floor(whole / 60)}:${String(whole % 60).padStart(2, "0")}`;
    },
    list: (items: readonly string[]) => intl.formatList([...items], { type: "conjunction" }),
  };
}

/** Gives everything below the messages of one language. */
export function TextProvider({ language, children }: { language: Language; children: ReactNode }) {
  return (
    <IntlProvider locale={language} messages={catalogues[language]} defaultLocale="en">
      {children}
    </IntlProvider>
  );
}
