/** Why a cue could not sound. */
export type SoundFailure = "locked" | "suspended" | "load-failed" | "too-late" | "device-lost";

/** What the sound output can do at a moment; everything but `ready` says why it cannot sound. */
export type SoundStatus = "ready" | "locked" | "suspended" | "device-lost";

/** A cue is handed to the audio clock this long before it is due, in ms. */
export const aheadMs = 2000;
/** A cue that cannot begin within this time after it was due is not rung at all, in ms. */
export const latestMs = 1000;
/** While sound is known to be off, a cue waits no longer than this past its moment: it has to be seen. */
export const holdMs = 150;

export type StartDecision =
  /** Nothing to do until this moment of the page's clock. */
  | { readonly kind: "wait"; readonly untilMs: number }
  /** Hand it to the audio clock now. */
  | { readonly kind: "start" }
  /** It cannot sound yet, but may still in time. */
  | { readonly kind: "hold" }
  | { readonly kind: "fail"; readonly reason: SoundFailure };

/**
 * What to do about one cue now.
 *
 * A cue is given to the audio clock two seconds ahead and no earlier: late enough for the clocks not to
 * drift apart until then, and for a machine that falls asleep to have at most one cue on its hands;
 * early enough for a page whose timers are slowed to one a second.
 */
export function decideStart(situation: {
  readonly nowMs: number;
  readonly dueAtMs: number;
  readonly status: SoundStatus;
  readonly chime: "loading" | "loaded" | "failed";
}): StartDecision {
  const { nowMs, dueAtMs, status, chime } = situation;
  const fail = { kind: "fail", reason: whyLate(status, chime) } as const;
  if (nowMs > dueAtMs + latestMs) return fail;
  if (dueAtMs - nowMs > aheadMs) return { kind: "wait", untilMs: dueAtMs - aheadMs };
  if (status === "ready" && chime === "loaded") return { kind: "start" };
  // Not before its moment: what takes the sound's place is seen at once.
  if (chime === "failed") return nowMs < dueAtMs ? { kind: "wait", untilMs: dueAtMs } : fail;
  return nowMs > dueAtMs + holdMs ? fail : { kind: "hold" };
}

/** The reason to give for a cue whose time has passed. */
export function whyLate(status: SoundStatus, chime: "loading" | "loaded" | "failed"): SoundFailure {
  if (chime !== "loaded") return "load-failed";
  return status === "ready" ? "too-late" : status;
}
