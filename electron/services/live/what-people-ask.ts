import type { Session } from "../../../shared/api/sessions.ts";
import type { SessionCommand } from "../../../shared/session/decide.ts";
import type { SessionEvent } from "../../../shared/session/event.ts";
import { Refusal } from "../base/refusal.ts";
import type { ConductorOptions, Desk } from "./conductor-desk.ts";
import { nextCue } from "./live-session.ts";
import { sessionRefusal } from "./session-refusals.ts";
import type { TimeWork } from "./what-time-brings.ts";

/** What people ask of a session. Each looks first at what time has brought, and again afterwards. */
export function whatPeopleAsk(desk: Desk, time: TimeWork, { clock, log }: ConductorOptions) {
  const { advance } = time;

  return {
    /** Runs a session whose `begun` is in the log. */
    start(session: Session): void {
      const held = desk.take(session);
      desk.wrote(session.id, log.read(session.id, 0));
      time.run(held);
    },

    /** Lets the rules decide on what someone asks; returns what was written. Throws Refusal, Missing. */
    command(sessionId: string, command: SessionCommand): SessionEvent[] {
      desk.known(sessionId);
      advance();
      const events = desk.obey(sessionId, command);
      advance();
      return events;
    },

    /**
     * Several commands at once, each allowed or refused by itself; those allowed are written in one
     * transaction, or none when the store fails.
     *
     * @param inOne runs its work as one transaction
     * @returns the refusal of each command, or null where it was allowed
     */
    commandAll(
      sessionId: string,
      commands: readonly SessionCommand[],
      inOne: (work: () => void) => void,
    ): (Refusal | null)[] {
      desk.known(sessionId);
      advance();
      const refused: (Refusal | null)[] = [];
      // Nothing that time brings may happen in between: it would be told before it is on the disk.
      inOne(() => {
        for (const command of commands)
          refused.push(refusalOf(() => desk.obey(sessionId, command)));
      });
      advance();
      return refused;
    },

    pause(sessionId: string): void {
      desk.known(sessionId);
      advance();
      desk.obey(sessionId, { kind: "pause", reason: "teacher" });
      const held = desk.held(sessionId);
      if (held !== null) {
        held.time.stop(clock.monotonicMs());
        desk.takeBack(held);
      }
      advance();
    },

    /** Goes on with a paused session; one that an earlier run left open becomes the live one. */
    resume(sessionId: string): void {
      const session = desk.known(sessionId);
      advance();
      desk.obey(sessionId, { kind: "resume" });
      time.run(desk.held(sessionId) ?? desk.take(session));
    },

    end(sessionId: string): void {
      desk.known(sessionId);
      advance();
      const held = desk.held(sessionId);
      if (held !== null) time.close(held, "teacher");
      else {
        desk.obey(sessionId, { kind: "end", reason: "closed-later" });
        desk.closeWindows(sessionId);
      }
      advance();
    },

    /** Leaves out the next cue that is still to come, and says which. */
    skip(sessionId: string): number {
      desk.known(sessionId);
      advance();
      const held = desk.held(sessionId);
      if (held === null) {
        const { status } = desk.stateOf(sessionId);
        throw sessionRefusal(status === "ended" ? "session-ended" : "session-not-running");
      }
      // Of own cues none is everybody's next one, and which comes next nobody is told.
      if (held.state.isOwn) throw sessionRefusal("cue-unknown");
      const cue = desk.takeBack(held)[0] ?? nextCue(held);
      if (cue === null) throw sessionRefusal("cue-unknown");
      desk.obey(sessionId, { kind: "leave-undelivered", cue, reason: "skipped" });
      advance();
      return cue;
    },
  };
}

function refusalOf(work: () => unknown): Refusal | null {
  try {
    work();
    return null;
  } catch (error) {
    if (error instanceof Refusal) return error;
    throw error;
  }
}
