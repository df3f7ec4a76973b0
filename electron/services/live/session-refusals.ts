import type { SessionRefusal } from "../../../shared/session/decide.ts";
import { Refusal } from "../base/refusal.ts";

const sentences: Readonly<Record<SessionRefusal, string>> = {
  "session-running": "End the session before entering its records.",
  "session-not-running": "This session is not running. Start or resume it first.",
  "session-ended": "This session has ended. Enter marks on the record page instead.",
  "cue-not-open": "This cue no longer takes marks. Record the newest cue.",
  "cue-unknown": "This cue has not been heard in this session.",
  "student-set-aside": "This student is absent. Mark the student as here first.",
  "points-stopped":
    "Nothing more is taken from this student today. Praise the next minute of work.",
  "points-too-soon":
    "Points were just taken from this student. Wait, and praise the next minute of work.",
  "points-none-left": "This student has no points to take. Praise the next minute of work.",
  "points-two-to-one-day":
    "Give this student two points for each one taken today. Praise the next minute of work first.",
  "points-two-to-one-lately":
    "Over the last ten sessions too much was taken from this student. Praise the next minute of work first.",
  "points-too-late": "This press is more than ten minutes old. Give or correct instead.",
  "points-no-press": "No such press is in this session.",
};

/** The refusal for what a session's rules forbid. */
export const sessionRefusal = (code: SessionRefusal): Refusal => new Refusal(code, sentences[code]);
