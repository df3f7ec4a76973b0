/** What is known of one cue that devices were told of. */
interface Shown {
  readonly dueMonotonicMs: number;
  /** By seat: told of it, and when it was shown there, or null. */
  readonly seats: Map<string, number | null>;
}

/** Under which name a cue is known here: a student's own by whose it is too. */
export const cueName = (cue: number, owner: string | null): string =>
  owner === null ? String(cue) : `${owner}/${cue}`;

/** Which seat was told of which cue of the present session, and which showed it. Never kept. */
export function shownCues() {
  let sessionId: string | null = null;
  let cues = new Map<string, Shown>();
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
    call(name: string, dueMonotonicMs: number): void {
      cues.set(name, { dueMonotonicMs, seats: new Map() });
    },
    cancel(name: string): string[] {
      const told = [...(cues.get(name)?.seats.keys() ?? [])];
      cues.delete(name);
      return told;
    },
    told(name: string, seatId: string): void {
      const { seats } = cues.get(name) ?? {};
      if (seats?.has(seatId) === false) seats.set(seatId, null);
    },
    began(name: string, seatId: string, atMs: number): void {
      const { seats } = cues.get(name) ?? {};
      if (seats?.get(seatId) === null) seats.set(seatId, atMs);
    },
    /** When a cue of this run was due; null for one of which no device was told. */
    due: (name: string): number | null => cues.get(name)?.dueMonotonicMs ?? null,
    wasTold: (name: string, seatId: string): boolean => cues.get(name)?.seats.has(seatId) === true,
    hasShown: (name: string, seatId: string): boolean =>
      typeof cues.get(name)?.seats.get(seatId) === "number",
    /** The cue reached the class and not this seat. */
    miss(cue: number, seatId: string): void {
      const before = missed.get(seatId) ?? [];
      if (!before.includes(cue)) missed.set(seatId, [...before, cue]);
    },
    missedBy: (seatId: string): readonly number[] => missed.get(seatId) ?? [],
  };
}
export type ShownCues = ReturnType<typeof shownCues>;
