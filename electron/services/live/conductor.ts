import type { ConductorClock } from "../../../shared/api/sessions.ts";
import { replay } from "../../../shared/session/reduce.ts";
import { StoreError } from "../../store/store.ts";
import { type ConductorOptions, conductorDesk, type SessionFollower } from "./conductor-desk.ts";
import { cueReports } from "./cue-reports.ts";
import { sessionMsOf } from "./live-session.ts";
import { whatPeopleAsk } from "./what-people-ask.ts";
import { whatTimeBrings } from "./what-time-brings.ts";

/** Runs the one live session. All that is said of any session while the app runs goes through it. */
export type Conductor = ReturnType<typeof conductor>;

/**
 * Every event is on the disk before anybody is told of it. `announced` is written before a window hears
 * of the cue, so after a crash no cue can sound twice. All work that time brings is done by `advance`,
 * which may be called at any moment and does what is due by then: timers only decide how soon.
 *
 * A pause takes back a cue that was called and is not due yet. It comes after the resume, at its own
 * session time, and is announced again then; should it have sounded all the same, the report counts it.
 */
export function conductor(options: ConductorOptions) {
  const { clock, log, sessionOf } = options;
  const desk = conductorDesk(options);
  const time = whatTimeBrings(desk, options);
  const { advance } = time;
  const stopping = new AbortController();

  recover();

  /** An earlier run left a session open: it waits for the teacher. A damaged one keeps nobody waiting. */
  function recover(): void {
    const id = log.openSessionId();
    if (id === null || id === desk.live()?.session.id) return;
    try {
      desk.obey(id, { kind: "recover" });
    } catch (error) {
      if (!(error instanceof StoreError) || error.problem !== "entry-damaged") throw error;
      // The log has noted it, so that the next open session is named now, or none.
      recover();
    }
  }

  return {
    ...cueReports(desk, time, clock),
    ...whatPeopleAsk(desk, time, options),
    stateOf: desk.stateOf,
    recover,

    /** The id of the session that is running or paused in this run of the app, or null. */
    liveId(): string | null {
      const live = desk.live();
      return live === null || live.state.status === "ended" ? null : live.session.id;
    },

    /** Looks at the store again after something was erased from it. */
    refresh(): void {
      const live = desk.live();
      if (live === null) return;
      if (sessionOf(live.session.id) === null) desk.release();
      else live.state = replay(log.read(live.session.id, 0));
      advance();
    },

    /** Follows every session from now on. */
    follow(follower: SessionFollower): void {
      desk.followers.add(follower);
    },

    /** See `EventHub`. */
    watch(sessionId: string, after: number, signal: AbortSignal) {
      desk.known(sessionId);
      return desk.hub.watch(sessionId, after, AbortSignal.any([signal, stopping.signal]));
    },

    clockNow(): ConductorClock {
      const live = desk.live();
      const monotonicMs = clock.monotonicMs();
      return {
        monotonicMs,
        speed: clock.speed,
        sessionMs: live === null ? null : sessionMsOf(live, monotonicMs),
        running: live !== null && live.state.status === "running",
      };
    },

    /** The computer says it is about to sleep. It may say so late, twice or for nothing. */
    suspend(): void {
      advance();
      const live = desk.live();
      if (live === null || live.state.status !== "running") return;
      desk.obey(live.session.id, { kind: "pause", reason: "asleep" });
      live.time.stop(clock.monotonicMs());
      desk.takeBack(live);
      time.tellIfRunning();
    },

    /** The computer says it is awake again. */
    wake: advance,

    /** Stops without a word in the log: the next run offers to go on. */
    stop(): void {
      time.stop();
      stopping.abort();
      for (const open of desk.windows.values()) open.close();
      desk.windows.clear();
      desk.hub.news();
      desk.letGo();
    },
  };
}
