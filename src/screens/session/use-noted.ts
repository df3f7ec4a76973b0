import { useEffect, useState } from "react";
import type { SeenValue } from "../../../shared/session/event.ts";

/** How long an answer is confirmed and can be taken back, in ms. */
const notedMs = 10_000;

/** What was just said of a student, and of which cue; null for a look outside any. */
export interface Noted {
  readonly studentId: string;
  readonly cue: number | null;
  readonly value: SeenValue;
}

/** The newest answers, each for some seconds. */
export function useNoted() {
  const [noted, setNoted] = useState<readonly (Noted & { readonly until: number })[]>([]);
  const first = noted[0]?.until;
  useEffect(() => {
    if (first === undefined) return;
    const timer = setTimeout(
      () => setNoted((now) => now.filter(({ until }) => until > first)),
      Math.max(0, first - performance.now()),
    );
    return () => clearTimeout(timer);
  }, [first]);
  const forget = ({ studentId, cue }: Pick<Noted, "studentId" | "cue">) =>
    setNoted((now) => now.filter((each) => each.studentId !== studentId || each.cue !== cue));
  return {
    of: (studentId: string, cue: number | null): Noted | undefined =>
      noted.find((each) => each.studentId === studentId && each.cue === cue),
    newestFree: noted.findLast(({ cue }) => cue === null),
    add(said: Noted) {
      forget(said);
      setNoted((now) => [...now, { ...said, until: performance.now() + notedMs }]);
    },
    forget,
  };
}
