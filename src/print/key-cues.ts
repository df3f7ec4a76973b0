import type { PlanSettings } from "../../shared/plan/plan.ts";
import { checkPlan } from "../../shared/schedule/check-plan.ts";
import { fadedPlan } from "../../shared/schedule/fading.ts";
import { type SessionSchedule, sessionSchedule } from "../../shared/schedule/session-schedule.ts";

export interface KeyOptions {
  readonly seed: string;
  /** The student whose own cues are wanted; null for the group's. */
  readonly studentId: string | null;
  /** A step of thinning, or null for the plan as it stands. */
  readonly meanSeconds: number | null;
}

export interface KeyCues {
  /** The plan as it stands, or thinned to the wanted step. */
  readonly settings: PlanSettings;
  /** Null when this plan cannot be run. */
  readonly schedule: SessionSchedule | null;
}

/** What a cue key lists: the very cues that a session, a recording and the command line have. */
export function keyCues(plan: PlanSettings, options: KeyOptions): KeyCues {
  const { seed, studentId, meanSeconds } = options;
  const settings = meanSeconds === null ? plan : fadedPlan(plan, meanSeconds);
  if (checkPlan(settings).length > 0) return { settings, schedule: null };
  const whose = studentId === null ? {} : { studentId };
  return { settings, schedule: sessionSchedule(settings, seed, whose) };
}

/** The mean that an address asks for; null when it names none a plan can have. */
export function readMean(text: string): number | null {
  const seconds = /^\d{1,5}(\.\d{1,3})?$/.test(text) ? Number(text) : 0;
  return seconds > 0 ? seconds : null;
}
