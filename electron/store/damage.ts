/**
 * Sessions of which something in the file cannot be read, as they are come across. Kept for a run of the
 * app: a session is looked at again whenever it is read.
 */
export interface Damage {
  /** Something of a session cannot be read: so many of its entries, or its plan when none. */
  found(sessionId: string, entries: number): void;
  /** The session can be read again. */
  repaired(sessionId: string): void;
  has(sessionId: string): boolean;
  /** How many entries of each session cannot be read; 0 where it is the session's plan. */
  all(): ReadonlyMap<string, number>;
  /** Called whenever what `all` says has changed. */
  onChange(listener: () => void): void;
}

export function damageFound(): Damage {
  const sessions = new Map<string, number>();
  const listeners = new Set<() => void>();
  const tell = () => {
    for (const listener of listeners) listener();
  };
  return {
    found(sessionId, entries) {
      if (sessions.get(sessionId) === entries) return;
      sessions.set(sessionId, entries);
      tell();
    },
    repaired(sessionId) {
      if (sessions.delete(sessionId)) tell();
    },
    has: (sessionId) => sessions.has(sessionId),
    all: () => new Map(sessions),
    onChange: (listener) => void listeners.add(listener),
  };
}
