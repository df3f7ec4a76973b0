import type { InferContractRouterInputs, InferContractRouterOutputs } from "@orpc/contract";
import { advice } from "./advice.ts";
import { agreed } from "./agreed.ts";
import { alternations } from "./alternations.ts";
import { analysis, phases } from "./analysis.ts";
import { app } from "./app.ts";
import { care } from "./care.ts";
import { chimes } from "./chimes.ts";
import { classScreen } from "./class-screen.ts";
import { contracts } from "./contracts.ts";
import { family } from "./family.ts";
import { homeCards } from "./home-cards.ts";
import { plans } from "./plans.ts";
import { points } from "./points.ts";
import { calendar, practice, program } from "./program.ts";
import { records } from "./records.ts";
import { groups, students } from "./roster.ts";
import { seats } from "./seats.ts";
import { sessions } from "./sessions.ts";
import { pairs, teams } from "./teams.ts";
import { transfer } from "./transfer.ts";

/**
 * Everything the page may ask of the desktop side, declared once. Plain handlers in electron/services
 * implement it, one carrier file serves them, and one client file in src/ calls them.
 */
export const procedures = {
  app,
  classScreen,
  chimes,
  groups,
  students,
  plans,
  sessions,
  records,
  analysis,
  phases,
  alternations,
  calendar,
  program,
  advice,
  practice,
  transfer,
  care,
  points,
  agreed,
  family,
  homeCards,
  teams,
  pairs,
  contracts,
  seats,
};
export type Procedures = typeof procedures;

/** What a handler is given, after validation. */
export type ProcedureInputs = InferContractRouterInputs<Procedures>;
/** What a handler must return; a stream is an async iterator. */
export type ProcedureOutputs = InferContractRouterOutputs<Procedures>;

/** No message may be longer than this, whatever the carrier. A whole class's five years fit ten times. */
export const longestMessageBytes = 4 * 1024 * 1024;
