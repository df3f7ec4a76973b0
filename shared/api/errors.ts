import { oc } from "@orpc/contract";
import { z } from "zod";

/**
 * Reasons for which the desktop side says no. The page words each code in its catalogues; the message
 * that travels with the error is the English sentence, for logs and for the command line.
 */
export const refusalCodes = [
  "plan-impossible",
  "name-empty",
  "name-taken",
  "group-empty",
  "session-running",
  "session-not-running",
  "session-ended",
  "cue-not-open",
  "cue-unknown",
  "student-set-aside",
  "student-not-in-group",
  "points-off",
  "points-stopped",
  "points-too-soon",
  "points-none-left",
  "points-two-to-one-day",
  "points-two-to-one-lately",
  "points-too-late",
  "points-no-press",
  "points-taking-off",
  "points-not-agreed",
  "taking-not-agreed",
  "privilege-too-dear",
  "privilege-not-for",
  "privilege-taken-today",
  "privilege-full",
  "teams-moved",
  "teams-unfit",
  "teams-swap-unfit",
  "pairs-too-few",
  "box-bad-mark",
  "box-too-many",
  "total-too-many",
  "home-card-misfit",
  "contract-match-low",
  "contract-unsigned",
  "contract-day-early",
  "contract-review-late",
  "sample-present",
  "sample-absent",
  "seed-bad",
  "file-unreadable",
  "import-bad-rows",
  "import-repeated-rows",
  "import-names-taken",
  "import-too-large",
  "held-bad-time",
  "held-already",
  "days-off-order",
  "chimes-full",
  "chime-unusable",
  "program-steps-order",
  "program-place-unknown",
  "program-moved",
  "probes-misplaced",
  "alternation-open",
  "recording-silent",
  "backup-unreadable",
  "store-failed",
  "class-screen",
  "code-wrong",
  "code-wait",
] as const;
export type RefusalCode = (typeof refusalCodes)[number];

const values = z.record(z.string().max(60), z.union([z.string().max(500), z.number()]));

/** Every procedure may fail in these ways and in no other; each carries what the screen needs to say. */
export const procedure = oc.errors({
  REFUSED: { status: 409, data: z.strictObject({ code: z.enum(refusalCodes), values }) },
  MISSING: { status: 404, data: z.strictObject({ what: z.string().max(60) }) },
  FAILED: { status: 500, data: z.strictObject({ reference: z.string().max(60) }) },
});
