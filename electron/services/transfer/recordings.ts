import { createHash } from "node:crypto";
import { mkdir, readdir, rm, stat } from "node:fs/promises";
import { join } from "node:path";
import type { Plan } from "../../../shared/api/plans.ts";
import type { ProcedureInputs, ProcedureOutputs } from "../../../shared/api/procedures.ts";
import { checkPlan } from "../../../shared/schedule/check-plan.ts";
import { sessionSchedule } from "../../../shared/schedule/session-schedule.ts";
import { unfinished } from "../../files/whole-file.ts";
import { chimeFolder } from "../../recording/chime-folder.ts";
import { chimeLoader } from "../../recording/load-chime.ts";
import { planRecording } from "../../recording/render-recording.ts";
import { writeFlac } from "../../recording/write-flac.ts";
import { writeWav } from "../../recording/write-wav.ts";
import { toStoreError } from "../../store/file/store-error.ts";
import type { Store } from "../../store/store.ts";
import { Missing, Refusal } from "../base/refusal.ts";

type Wanted = ProcedureInputs["transfer"]["recordCues"];
type Made = ProcedureOutputs["transfer"]["recordCues"];

const writers = { wav: writeWav, flac: writeFlac } as const;

/**
 * Renders sessions as sound files in the data folder, one after the other: each cue at its moment, with
 * the chimes that announce begin and end. The same plan and seed replace their earlier file.
 */
export function recordings(store: Store): (wanted: Wanted) => Promise<Made> {
  let last: Promise<unknown> = Promise.resolve();
  return (wanted) => {
    const plan = playable(store.plans.get(wanted.planId));
    requireStudent(store, plan, wanted.studentId);
    const made = last.then(() => write(store, plan, wanted));
    last = made.catch(() => undefined);
    return made;
  };
}

function requireStudent(store: Store, plan: Plan, studentId: string | undefined): void {
  if (studentId === undefined) return;
  if (store.students.get(studentId)?.groupId !== plan.groupId) throw new Missing("student");
}

function playable(plan: Plan | null): Plan {
  if (plan === null) throw new Missing("plan");
  const problem = checkPlan(plan.settings)[0];
  if (problem !== undefined) {
    throw new Refusal(
      "plan-impossible",
      `This plan cannot be run (${problem.code}). Open the plan and take the nearest one that can.`,
      { ...problem.values, problem: problem.code },
    );
  }
  if (plan.settings.volume > 0) return plan;
  throw new Refusal(
    "recording-silent",
    "The chime of this plan is at volume 0, so the recording would be silent. Turn it up in the plan.",
  );
}

async function write(store: Store, plan: Plan, wanted: Wanted): Promise<Made> {
  const { seed, form, studentId } = wanted;
  const folder = join(store.folder, "recordings");
  const { cues, streamName } = sessionSchedule(
    plan.settings,
    seed,
    studentId === undefined ? {} : { studentId },
  );
  const path = join(folder, recordingName(plan, seed, streamName, form));
  const { chime, volume, lengthSeconds } = plan.settings;
  const recording = planRecording({
    cues,
    lengthSeconds,
    chime,
    volume,
    announcements: true,
    load: chimeLoader(chimeFolder(), store.ownChimes.sound),
  });
  try {
    await mkdir(folder, { recursive: true, mode: 0o700 });
    await removeUnfinished(folder);
    await writers[form](path, recording);
    const { size } = await stat(path);
    return { path, seconds: recording.sampleCount / recording.sampleRate, bytes: size, streamName };
  } catch (cause) {
    throw toStoreError(cause);
  }
}

/** What a crash in the middle of a recording left behind. */
async function removeUnfinished(folder: string): Promise<void> {
  for (const name of await readdir(folder)) {
    if (name.endsWith(unfinished)) await rm(join(folder, name), { force: true });
  }
}

const longestPart = 40;

/**
 * Plan, seed and six figures that tell apart names which look alike once cleaned, and one student's own
 * cues from the group's: a child's name in it would outlive the erasing of the child. Only letters, digits
 * and hyphens, so that it is a plain name in one folder on every system.
 */
export function recordingName(
  plan: Pick<Plan, "id" | "name">,
  seed: string,
  streamName: string,
  form: Wanted["form"],
): string {
  const digest = createHash("sha256")
    .update(JSON.stringify([plan.id, seed, streamName]))
    .digest("hex");
  const parts = [cleaned(plan.name), cleaned(seed), digest.slice(0, 6)];
  return `${parts.filter((part) => part !== "").join("-")}.${form}`;
}

function cleaned(text: string): string {
  const plain = text.normalize("NFKD").replace(/\p{M}/gu, "");
  return plain
    .replace(/[^A-Za-z0-9]+/g, "-")
    .slice(0, longestPart)
    .replace(/^-|-$/g, "");
}
