import { useEffect, useState } from "react";

/** So often is looked at the clock, in ms. */
const lookMs = 10_000;

/** Minutes since midnight on this computer's clock; changes with the minute. */
export function useMinutes(): number {
  const [minutes, setMinutes] = useState(minutesNow);
  useEffect(() => {
    const timer = setInterval(() => setMinutes(minutesNow()), lookMs);
    return () => clearInterval(timer);
  }, []);
  return minutes;
}

function minutesNow(): number {
  const now = new Date();
  return 60 * now.getHours() + now.getMinutes();
}
