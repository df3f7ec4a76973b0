import { useEffect, useState } from "react";
import { useConnection } from "../api/context.tsx";

/** A reading of the conductor's clock, and when this page took it. */
interface Reading {
  sessionMs: number;
  running: boolean;
  speed: number;
  takenAtMs: number;
}

/**
 * Session time in seconds, ticking once a second: time spent running, without pauses and sleep. It is
 * read off the conductor's clock again whenever `since` changes, such as by a pause. Zero until it is known.
 */
export function useSessionSeconds(since: unknown): number {
  return useSessionReading(since) ?? 0;
}

/** The same, and null until it is known. */
export function useSessionReading(since: unknown): number | null {
  const { api } = useConnection();
  const [reading, setReading] = useState<Reading | null>(null);
  const [nowMs, setNowMs] = useState(() => performance.now());

  // biome-ignore lint/correctness/useExhaustiveDependencies: the caller says when to read the clock again
  useEffect(() => {
    let wanted = true;
    const read = async () => {
      try {
        const { sessionMs, running, speed } = await api.sessions.clock();
        const takenAtMs = performance.now();
        if (wanted && sessionMs !== null) setReading({ sessionMs, running, speed, takenAtMs });
      } catch {
        // The frame already says that the line is down; the next reading corrects the time.
      }
    };
    void read();
    const again = setInterval(read, 15_000);
    return () => {
      wanted = false;
      clearInterval(again);
    };
  }, [api, since]);

  useEffect(() => {
    const tick = setInterval(() => setNowMs(performance.now()), 500);
    return () => clearInterval(tick);
  }, []);

  if (reading === null) return null;
  const sinceReading = reading.running ? Math.max(0, nowMs - reading.takenAtMs) * reading.speed : 0;
  return (reading.sessionMs + sinceReading) / 1000;
}
