import { analysis, phases } from "./analysis.ts";
import { app } from "./app.ts";
import { plans } from "./plans.ts";
import { records } from "./records.ts";
import { groups, students } from "./roster.ts";
import { sessions } from "./sessions.ts";

/**
 * Everything the page may ask of the desktop side, declared once. One router implements it
 * (electron/services/router.ts) and every carrier serves that router.
 */
export const procedures = { app, groups, students, plans, sessions, records, analysis, phases };
export type Procedures = typeof procedures;

/** No message may be longer than this, whatever the carrier. A whole class's five years fit ten times. */
export const longestMessageBytes = 4 * 1024 * 1024;
