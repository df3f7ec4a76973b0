/** A cue that this window puts in sight itself; the log says so only afterwards. */
export interface CueAhead {
  readonly sessionId: string;
  readonly cue: number;
}

/** A window that is told of a cue gets so long to show it, in ms; later it counts as not shown. */
const showWithinMs = 1_000;

/** A page that is not painted within this time is covered, in ms. */
const paintWithinMs = 600;

let ahead: CueAhead | null = null;
/** A cue was not painted here in time, and nothing has been painted since. */
let isUnpainted = false;
const listeners = new Set<() => void>();
/** What shows cues to those who are to notice them. Each is a sign on this page, mounted now. */
const signs = new Set<symbol>();
const waiting = new Set<(painted: CueAhead) => void>();

function tell(): void {
  for (const listener of [...listeners]) listener();
}

/** Told when the cue ahead changes, or whether cues are in sight here; returns the way to stop. */
export function onCueInSight(listener: () => void): () => void {
  listeners.add(listener);
  return () => listeners.delete(listener);
}

/** The newest cue that this window was asked to show; null before the first. */
export const cueAhead = (): CueAhead | null => ahead;

/** Whether a cue would be seen on this page: a sign is mounted, and the page is painted. */
export const cuesAreInSight = (): boolean =>
  signs.size > 0 && !isUnpainted && document.visibilityState !== "hidden";

/** Says that a sign is mounted that shows cues; returns the way to say that it is gone. */
export function addSign(): () => void {
  const sign = Symbol("sign");
  signs.add(sign);
  tell();
  return () => {
    signs.delete(sign);
    tell();
  };
}

/** A sign says, after the paint, that this cue now stands on the page. */
export function paintedCue(painted: CueAhead): void {
  for (const each of [...waiting]) each(painted);
}

/** A page may be covered without a word from the browser: until it is painted again it shows no cues. */
function waitForPaint(): void {
  isUnpainted = true;
  requestAnimationFrame(() => {
    isUnpainted = false;
    tell();
  });
}

/**
 * Finds out whether this page is painted, before a cue is due: a page that another one covers says that it
 * shows nothing, and the cue goes to the other in time.
 */
export function checkPaint(): void {
  if (signs.size === 0 || isUnpainted) return;
  const timer = setTimeout(() => {
    cancelAnimationFrame(frame);
    waitForPaint();
    tell();
  }, paintWithinMs);
  const frame = requestAnimationFrame(() => clearTimeout(timer));
}

/**
 * Shows a cue on this page.
 *
 * @returns whether a sign has really changed: true after it was painted, false when none did in time
 */
export function putInSight(wanted: CueAhead): Promise<boolean> {
  return new Promise((resolve) => {
    const settle = (isShown: boolean) => {
      clearTimeout(timer);
      waiting.delete(onPainted);
      // A page that wakes later must not show a cue that counts as not shown.
      if (!isShown && ahead === wanted) ahead = null;
      if (!isShown && signs.size > 0) waitForPaint();
      tell();
      resolve(isShown);
    };
    const onPainted = (painted: CueAhead) => {
      if (painted.sessionId === wanted.sessionId && painted.cue === wanted.cue) settle(true);
    };
    const timer = setTimeout(() => settle(false), showWithinMs);
    waiting.add(onPainted);
    ahead = wanted;
    tell();
  });
}

/** Calls back once what is on the page by now has been painted; never while the page is hidden. */
export function afterPaint(then: () => void): () => void {
  let frame = requestAnimationFrame(() => {
    frame = requestAnimationFrame(then);
  });
  return () => cancelAnimationFrame(frame);
}
