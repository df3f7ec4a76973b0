/** What is known of one cue that devices were told of. */
interface Shown {
  readonly dueMonotonicMs: number;
  /** By seat: told of it, and when it was shown there, or null. */
  readonly seats: Map<string, number | null>;
}

/** Which seat was told of which cue of the present session, and which showed it. Never kept. */
export function shownCues() {
  let sessionId: string | null = null;
  let cues = new Map<number, Shown>();
  /** By seat. */
  let missed = new Map<string, number[]>();

  return {
    /** Another session begins with a clean slate. */
    begin(id: string): void {
      if (id === sessionId) return;
      sessionId = id;
      cues = new Map();
      missed = new Map();
    },
    call(cue: number, dueMonotonicMs: number): void {
      cues.set(cue, { dueMonotonicMs, seats: new Map() });
    },
    cancel(cue: number): string[] {
      const told = [...(cues.get(cue)?.seats.keys() ?? [])];
      cues.delete(cue);
      return told;
    },
    told(cue: number, seatId: string): void {
      const { seats } = cues.get(cue) ?? {};
      if (seats?.has(seatId) === false) seats.set(seatId, null);
    },
    began(cue: number, seatId: string, atMs: number): void {
      const { seats } = cues.get(cue) ?? {};
      if (seats?.get(seatId) === null) seats.set(seatId, atMs);
    },
    /** When a cue of this run was due; null for one of which no device was told. */
    due: (cue: number): number | null => cues.get(cue)?.dueMonotonicMs ?? null,
    wasTold: (cue: number, seatId: string): boolean => cues.get(cue)?.seats.has(seatId) === true,
    hasShown: (cue: number, seatId: string): boolean =>
      typeof cues.get(cue)?.seats.get(seatId) === "number",
    /** The cue reached the class and not this seat. */
    miss(cue: number, seatId: string): void {
      const before = missed.get(seatId) ?? [];
      if (!before.includes(cue)) missed.set(seatId, [...before, cue]);
    },
    missedBy: (seatId: string): readonly number[] => missed.get(seatId) ?? [],
  };
}
