import { type NotComputable, notComputable } from "../statistics/computed.ts";
import { criticalZ } from "../statistics/normal.ts";
import type { Interval } from "../statistics/result.ts";
import { wilsonInterval } from "../statistics/wilson.ts";
import { recordTellsApart } from "./match-reading.ts";
import type { TwoByTwo } from "./two-by-two.ts";

/** Marks of a record, checked or not. */
export interface RecordMarks {
  readonly on: number;
  readonly off: number;
}

export interface CorrectedRate {
  readonly kind: "computed";
  /** On-task rate as the adult who checks would have seen it, 0 to 1. */
  readonly value: number;
  readonly interval: Interval;
  /** The rate as recorded, which was corrected. */
  readonly recorded: number;
  /** Share of the cues seen on that the record calls on, and of those seen off that it calls off. */
  readonly onRecordedOn: number;
  readonly offRecordedOff: number;
}

export type CorrectionReason =
  /** Fewer than `fewestOfEachKind` cues were seen on, or seen off, and recorded. */
  | "few-checks-of-each-kind"
  /** The record does not tell on from off better than chance, so there is nothing to correct by. */
  | "record-tells-nothing";

/** Least number of checked cues seen on, and as many seen off. Common practice, no source. */
const fewestOfEachKind = 5;

/**
 * The true rate behind a test that errs: (recorded + specificity - 1) / (sensitivity + specificity - 1),
 * not below 0 or above 1. All four are shares.
 *
 * Source: Rogan WJ, Gladen B (1978) Estimating prevalence from the results of a screening test,
 * Am J Epidemiol 107:71-76.
 * Example: roganGladen(23 / 150, 0.96, 0.89) // 0.051
 *
 * @throws RangeError where sensitivity + specificity is 1 or less: such a test tells nothing.
 */
export function roganGladen(recorded: number, sensitivity: number, specificity: number): number {
  const told = sensitivity + specificity - 1;
  if (!(told > 0))
    throw new RangeError(
      `sensitivity + specificity must be above 1; got ${sensitivity + specificity}.`,
    );
  return within((recorded + specificity - 1) / told);
}

/**
 * A self-record's on-task rate corrected by its spot checks: about what the adult's eye would have found
 * at every cue. The checked cues show how often the record calls on what was seen on, and off what was
 * seen off; the whole record is corrected by these.
 *
 * The interval allows for how few cues were recorded and how few of each kind were checked. Marks of a
 * session are alike: `designEffect` (1 or more) says how much less they tell than independent ones.
 *
 * Sources: `roganGladen`; the interval of Lang Z, Reiczigel J (2014) Confidence limits for prevalence of
 * disease adjusted for estimated sensitivity and specificity, Prev Vet Med 113:13-22.
 * Example: correctedRate(twoByTwoOf(50, 8, 2, 20), { on: 420, off: 80 }) // 0.82, 0.73 to 0.93
 *
 * @throws RangeError when the design effect is below 1.
 */
export function correctedRate(
  checks: TwoByTwo,
  record: RecordMarks,
  designEffect = 1,
): CorrectedRate | NotComputable<CorrectionReason> {
  if (!(designEffect >= 1))
    throw new RangeError(`designEffect must be 1 or more; got ${designEffect}.`);
  const { bothOn, firstOnly, secondOnly, bothOff } = checks;
  const seenOn = bothOn + secondOnly;
  const seenOff = firstOnly + bothOff;
  if (Math.min(seenOn, seenOff) < fewestOfEachKind || record.on + record.off === 0)
    return notComputable("few-checks-of-each-kind");
  if (!recordTellsApart(checks)) return notComputable("record-tells-nothing");
  const recorded = record.on / (record.on + record.off);
  const value = roganGladen(recorded, bothOn / seenOn, bothOff / seenOff);
  const marks = (record.on + record.off) / designEffect;
  return {
    kind: "computed",
    value,
    interval: limits({ recorded, marks, bothOn, seenOn, bothOff, seenOff }, value),
    recorded,
    onRecordedOn: bothOn / seenOn,
    offRecordedOff: bothOff / seenOff,
  };
}

interface Limited {
  readonly recorded: number;
  readonly marks: number;
  readonly bothOn: number;
  readonly seenOn: number;
  readonly bothOff: number;
  readonly seenOff: number;
}

/**
 * Lang and Reiczigel's limits. At the ends theirs can leave out the estimate, or both be 0 or 1: these hold it,
 * and are then Wilson's of the recorded rate, since no interval has zero width.
 */
function limits({ recorded, marks, bothOn, seenOn, bothOff, seenOff }: Limited, value: number) {
  const z = criticalZ(0.95);
  const zz = z * z;
  const sensitivity = (bothOn + 1) / (seenOn + 2);
  const specificity = (bothOff + 1) / (seenOff + 2);
  const positive = (recorded * marks + zz / 2) / (marks + zz);
  const told = sensitivity + specificity - 1;
  const centre = (positive + specificity - 1) / told;
  const ofOn = (sensitivity * (1 - sensitivity)) / (seenOn + 2);
  const ofOff = (specificity * (1 - specificity)) / (seenOff + 2);
  const shift = 2 * zz * (centre * ofOn - (1 - centre) * ofOff);
  const variance =
    (positive * (1 - positive)) / (marks + zz) + centre ** 2 * ofOn + (1 - centre) ** 2 * ofOff;
  const half = (z * Math.sqrt(variance)) / told;
  const lower = Math.min(value, within(centre + shift - half));
  const upper = Math.max(value, within(centre + shift + half));
  if (lower < upper) return { lower, upper };
  const wilson = wilsonInterval(recorded * marks, marks);
  return { lower: Math.min(lower, wilson.lower), upper: Math.max(upper, wilson.upper) };
}

const within = (share: number): number => Math.min(1, Math.max(0, share));
