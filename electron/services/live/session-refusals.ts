import type { SessionRefusal } from "../../../shared/session/decide.ts";
import { Refusal } from "../base/refusal.ts";

const sentences: Readonly<Record<SessionRefusal, string>> = {
  "session-running": "End the session before entering its records.",
  "session-not-running": "This session is not running. Start or resume it first.",
  "session-ended": "This session has ended. Enter marks on the record page instead.",
  "cue-not-open": "This cue no longer takes marks. Record the newest cue.",
  "cue-unknown": "This cue has not been heard in this session.",
  "student-set-aside": "This student is absent. Mark the student as here first.",
};

/** The refusal for what a session's rules forbid. */
export const sessionRefusal = (code: SessionRefusal): Refusal => new Refusal(code, sentences[code]);
