import { alternationTest } from "../../../shared/analysis/designs/alternation-test.ts";
import {
  type StaggeredCase,
  staggeredTest,
} from "../../../shared/analysis/designs/staggered-test.ts";
import { withdrawalTest } from "../../../shared/analysis/designs/withdrawal-test.ts";
import { drawAlternation } from "../../../shared/reading/drawn/drawn-alternation.ts";
import { type RandomStream, randomStream } from "../../../shared/schedule/stream.ts";
import { correlations } from "./conditions.ts";
import { type Table, tally } from "./outcomes.ts";
import type { CalibrationRow } from "./row.ts";
import { simulateRecord } from "./simulate.ts";

type Found =
  | { readonly kind: "computed"; readonly probability: number }
  | { readonly kind: string };

const isShown = (found: Found): boolean => "probability" in found && found.probability <= 0.05;

/** Five days for each change, one window after the other. */
const windowOf = (first: number): number[] => [0, 1, 2, 3, 4].map((day) => first + day);
const oneOf = (days: readonly number[], draw: RandomStream): number =>
  days[Math.floor(draw() * days.length)] ?? 0;

interface Design {
  readonly name: string;
  /** A record of each student, by day: the program adds its points where it holds. */
  readonly isShown: (r: number, effect: number, draw: RandomStream, replicate: number) => boolean;
}

const base = 0.5;
const cues = 10;
const recordOf = (sessions: number, r: number, rate: (at: number) => number, draw: RandomStream) =>
  simulateRecord({ sessions, cues, r, rate, perWeek: 7 }, draw).map(({ on }, day) => ({
    day,
    value: on / cues,
  }));

const designs: readonly Design[] = [
  {
    name: "alternating conditions, 12 sessions",
    isShown(r, effect, draw, replicate) {
      const order = drawAlternation(`calibration ${r} ${effect} ${replicate}`, 12);
      const rate = (at: number) => base + (order[at] === "A" ? effect : 0);
      const points = recordOf(12, r, rate, draw);
      return isShown(
        alternationTest(
          order,
          points.map(({ day, value }) => ({ place: day + 1, value })),
        ),
      );
    },
  },
  {
    name: "staggered starts of three students, 30 sessions each",
    isShown(r, effect, draw) {
      const cases = [5, 10, 15].map((first): StaggeredCase => {
        const permittedDays = windowOf(first);
        const day = oneOf(permittedDays, draw);
        const rate = (at: number) => base + (at >= day ? effect : 0);
        return { points: recordOf(30, r, rate, draw), permittedDays, day };
      });
      return isShown(staggeredTest(cases));
    },
  },
  {
    name: "withdrawal with three changes, 40 sessions",
    isShown(r, effect, draw) {
      const changes = [5, 15, 25].map((first) => {
        const permittedDays = windowOf(first);
        return { permittedDays, day: oneOf(permittedDays, draw) };
      });
      const isOn = (at: number) => changes.filter(({ day }) => day <= at).length % 2 === 1;
      const rate = (at: number) => base + (isOn(at) ? effect : 0);
      return isShown(withdrawalTest(recordOf(40, r, rate, draw), changes));
    },
  },
];

/**
 * An exact test lies at its bound and not below it, so that by chance one in forty measured shares is two
 * standard errors above: cheap as these are, more of them keep such a miss from being taken for an error.
 */
const timesAsMany = 5;

/** How often a drawn design shows what is not there: an exact test keeps 5 %, whatever neighbours are like. */
export const designsTable: Table = (cells) => {
  const replicates = timesAsMany * cells;
  return designs.flatMap((design) =>
    correlations.flatMap((r): CalibrationRow[] => {
      const condition = `${design.name}, ${cues} cues, r ${r}`;
      const draw = randomStream("calibration designs", condition);
      let replicate = 0;
      const share = tally(replicates, () => {
        replicate += 1;
        return {
          steady: design.isShown(r, 0, draw, replicate),
          changed: design.isShown(r, 0.2, draw, replicate),
        };
      });
      return [
        {
          statement: "p at most .05 although nothing changed",
          condition,
          share: share("steady"),
          replicates,
          goal: { atMost: 0.05 },
        },
        {
          statement: "p at most .05 where the program adds 20 points",
          condition,
          share: share("changed"),
          replicates,
          goal: null,
        },
      ];
    }),
  );
};
