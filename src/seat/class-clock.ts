/**
 * The conductor's clock, seen from this device: of several questions the one with the shortest way counts,
 * because its answer is the least late.
 */
export function classClock() {
  let offset: number | null = null;
  let shortest = Number.POSITIVE_INFINITY;
  return {
    /** An answer: `sentAt` by this device, `at` by the conductor. */
    heard(sentAt: number, at: number): void {
      const now = performance.now();
      const way = now - sentAt;
      if (way > shortest) return;
      shortest = way;
      offset = at - (sentAt + now) / 2;
    },
    /** Clocks drift, and a device that slept may have stopped its own: begin anew. */
    forget(): void {
      shortest = Number.POSITIVE_INFINITY;
    },
    /** The conductor's time now, in ms; null until it is known. */
    now: (): number | null => (offset === null ? null : performance.now() + offset),
  };
}
