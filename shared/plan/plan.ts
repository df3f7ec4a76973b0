import { z } from "zod";
import { earningSchema, noEarning } from "./earning.ts";

/** The interval laws a teacher can choose from; `fixed` is labelled predictable wherever it is shown. */
export const lawNames = ["exponential", "uniform", "balanced", "fixed"] as const;
export type LawName = (typeof lawNames)[number];

/** The chimes that ship with the app, by file name without ending. */
export const chimeNames = ["bell", "wood", "glass", "marimba", "bowl", "pluck"] as const;
export type ChimeName = (typeof chimeNames)[number];

/** A chime that the teacher brought, by its id. */
export const ownChimeSchema = z.templateLiteral(["own:", z.uuidv7()]);
export type OwnChime = z.infer<typeof ownChimeSchema>;

/** Every chime that a plan can have. */
export const planChimeSchema = z.union([z.enum(chimeNames), ownChimeSchema]);
export type PlanChime = z.infer<typeof planChimeSchema>;

/**
 * The id of a chime that the teacher brought; null for one that ships.
 *
 * Example: ownChimeId("bell") // null
 */
export function ownChimeId(chime: string): string | null {
  return chime.startsWith("own:") ? chime.slice("own:".length) : null;
}

/**
 * How the cue reaches people: `sound` chimes and shows the visual cue, `silent` shows the visual cue
 * only, `teacher` cues the teacher alone (for observing without prompting the class), `own` gives each
 * student cues of their own, silently on their own device.
 */
export const cueingWays = ["sound", "silent", "own", "teacher"] as const;
export type CueingWay = (typeof cueingWays)[number];

/** How students record: on the one shared screen, on paper cards typed in afterwards, each on a device of their own. */
const recordingWays = ["screen", "paper", "seat"] as const;
export type RecordingWay = (typeof recordingWays)[number];

/** Above this many students paper is offered first: at one screen they would line up. Common practice, no source. */
const mostAtOneScreen = 6;

/**
 * The way of recording that is offered first to a group of this many students.
 *
 * Example: offeredFirst(24) // "paper"
 */
export function offeredFirst(students: number): "screen" | "paper" {
  return students > mostAtOneScreen ? "paper" : "screen";
}

/** Letters of a subject. */
export const longestSubject = 60;

/** Students of whom one spot check may ask: more cannot be looked at in the moment of a cue. */
export const mostStudentsPerCheck = 4;

/** At which cues the teacher is asked for a spot check: as agreement allows, or one cue in so many. */
export const checkPaces = ["automatic", "every", "second", "fourth", "tenth"] as const;
export type CheckPace = (typeof checkPaces)[number];

const fewestCues = z.int().min(0).max(500);
const seconds = z.number().min(0).max(86_400);

/**
 * What a session will be like. All lengths are in seconds. This schema only bounds each field; whether
 * the fields make sense together is told by `checkPlan`.
 */
export const planSettingsSchema = z.strictObject({
  law: z.enum(lawNames),
  /** Mean interval between cues. */
  meanSeconds: seconds,
  /** No two cues are closer than this. */
  shortestGapSeconds: seconds,
  /** No two cues are farther apart than this; null when the law is not cut off. */
  longestGapSeconds: seconds.nullable(),
  /** Length of the session. */
  lengthSeconds: seconds,
  /** Time at the start in which no cue comes. */
  leadInSeconds: seconds,
  /** Time at the end in which no cue comes. */
  endMarginSeconds: seconds,
  /** The session is drawn again until it has at least this many cues. */
  fewestCues,
  /**
   * The fewest cues that were asked for before thinning had to lower them; null while they stand as
   * asked. A step back to denser cues restores them.
   */
  fewestCuesUnthinned: fewestCues.nullable(),
  chime: planChimeSchema,
  /** Linear gain of the chime, 0 to 1. */
  volume: z.number().min(0).max(1),
  cueing: z.enum(cueingWays),
  recording: z.enum(recordingWays),
  /** The time of the next cue is kept from the teacher too. */
  hideNextCue: z.boolean(),
  /** How many students a spot check asks the teacher about. */
  studentsPerCheck: z.int().min(1).max(mostStudentsPerCheck),
  checkPace: z.enum(checkPaces),
  /** What is worked on, in the teacher's words; empty when nobody said. */
  subject: z.string().trim().max(longestSubject),
  /** What a session pays; its own copy of the plan keeps what it ran under. */
  earning: earningSchema,
});
export type PlanSettings = z.infer<typeof planSettingsSchema>;

/** A plan as it was kept, perhaps before plans had a subject, a thinned floor, a pace of spot checks or points. */
export const keptPlanSchema = planSettingsSchema.extend({
  fewestCuesUnthinned: planSettingsSchema.shape.fewestCuesUnthinned.default(null),
  studentsPerCheck: planSettingsSchema.shape.studentsPerCheck.default(2),
  checkPace: planSettingsSchema.shape.checkPace.default("automatic"),
  subject: planSettingsSchema.shape.subject.default(""),
  earning: planSettingsSchema.shape.earning.default(noEarning),
});

/** The sensible first plan: a two-minute mean over twenty minutes, nothing to decide. */
export const firstPlan: PlanSettings = {
  law: "exponential",
  meanSeconds: 120,
  shortestGapSeconds: 20,
  longestGapSeconds: null,
  lengthSeconds: 1200,
  leadInSeconds: 0,
  endMarginSeconds: 0,
  fewestCues: 1,
  fewestCuesUnthinned: null,
  chime: "bell",
  volume: 0.5,
  cueing: "sound",
  recording: "screen",
  hideNextCue: true,
  studentsPerCheck: 2,
  checkPace: "automatic",
  subject: "",
  earning: noEarning,
};
