import type { Topic } from "../../../shared/api/app.ts";
import type { SessionEvent } from "../../../shared/session/event.ts";

/**
 * What pages should look at again after these events. Whoever watches a session hears of its marks
 * through its own stream, so a mark made in time touches nothing else.
 *
 * @param isLive whether the session of the events still goes on
 */
export function touchedTopics(events: readonly SessionEvent[], isLive: () => boolean): Topic[] {
  return [...new Set(events.flatMap(({ body }): Topic[] => topicsOf(body, isLive)))];
}

function topicsOf(body: SessionEvent["body"], isLive: () => boolean): Topic[] {
  switch (body.kind) {
    case "begun":
      return ["sessions", "points"];
    case "paused":
    case "resumed":
      return ["sessions"];
    case "mark":
      // A late mark may come after the end, when the records are being looked at already.
      return body.way === "paper" || body.late ? ["sessions", "records", "points"] : [];
    case "delivered":
      return ["points"];
    case "ended":
    case "left-out":
    case "passed-over":
    case "taken-in":
    case "total":
    case "set-aside":
    case "back":
      return ["sessions", "records", "points"];
    case "spot-check":
    case "work":
      return ["records", "points"];
    case "observed":
    case "note":
      return ["records"];
    case "given":
    case "taken":
    case "ungiven":
    case "untaken":
    case "points-stopped":
    case "pluses":
      return ["points"];
    case "own-goal":
    case "undelivered":
      // The verdict on one student's device comes seconds after its cue: of the last one after the session,
      // when the records are being looked at already.
      return body.studentId === undefined || isLive() ? [] : ["records"];
    case "announced":
    case "by-touch":
    case "said-away":
    case "interruption":
      return [];
  }
}
