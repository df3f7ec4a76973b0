import { minutesOf } from "../../shared/calendar/next-period.ts";
import { useFormats } from "../text/text.tsx";

/** Words a time of the local clock, such as 09:30, as the reader's language writes it; empty for none. */
export function useWordTime(): (time: string | null) => string {
  const formats = useFormats();
  return (time) => (time === null ? "" : formats.time(60_000 * minutesOf(time), 0));
}
