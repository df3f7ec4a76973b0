/** Something to wait for that happens again and again; nobody waiting is no memory kept. */
export function bell(): { rung(signal: AbortSignal): Promise<void>; ring(): void } {
  const waiting = new Set<() => void>();
  return {
    rung(signal) {
      if (signal.aborted) return Promise.resolve();
      return new Promise((resolve) => {
        const done = () => {
          waiting.delete(done);
          signal.removeEventListener("abort", done);
          resolve();
        };
        waiting.add(done);
        signal.addEventListener("abort", done, { once: true });
      });
    },
    ring() {
      for (const done of [...waiting]) done();
    },
  };
}

/**
 * A stream that its reader can leave at any time, also while it waits for news: a plain generator would
 * hear of that only at its next value.
 *
 * @param signal the caller's; the generator is given one that also aborts when the reader returns
 * @param left called when the reader returns, which may be before the generator's first step
 */
export function leavable<Item>(
  signal: AbortSignal,
  generate: (signal: AbortSignal) => AsyncGenerator<Item, void, undefined>,
  left: () => void = () => {},
): AsyncIterableIterator<Item, undefined, undefined> {
  const leaving = new AbortController();
  const stream = generate(AbortSignal.any([signal, leaving.signal]));
  const end = { done: true, value: undefined } as const;
  return {
    async next() {
      const step = await stream.next();
      return step.done ? end : step;
    },
    async return() {
      leaving.abort();
      left();
      await stream.return();
      return end;
    },
    async throw(cause) {
      leaving.abort();
      left();
      await stream.return();
      throw cause;
    },
    [Symbol.asyncIterator]() {
      return this;
    },
  };
}
