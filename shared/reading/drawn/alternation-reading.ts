import { alternationTest } from "../../analysis/designs/alternation-test.ts";
import { alternationStandard } from "../../analysis/designs/design-standard.ts";
import type { PointsStandard } from "../../analysis/phases/points-standard.ts";
import type { Alternation } from "../../phase/alternation.ts";
import type { SessionCount } from "../../record/session-count.ts";
import { type NotComputable, notComputable } from "../../statistics/computed.ts";

/** What two conditions show that took turns in a drawn order. */
export interface AlternationReading {
  /** Sessions of the order held so far, and all of them. */
  readonly held: number;
  readonly sessions: number;
  readonly test: ReturnType<typeof alternationTest> | NotComputable<"unfinished">;
  readonly standard: PointsStandard;
  /** An order was drawn more than once until it was kept: the test is not exact. */
  readonly redrawn: boolean;
}

/**
 * Reads an alternation by the students' own records. Nothing is tested before its last session has ended: who
 * looks at every session and stops at a good moment finds differences where there are none.
 *
 * @param sessions of one student, or of all added up
 * @param open the session that is still running, or null
 *
 * Source: see `alternationTest`. Example: readAlternation(alternation, [], null).test.reason // "unfinished"
 */
export function readAlternation(
  alternation: Pick<Alternation, "order" | "sessions" | "times">,
  sessions: readonly SessionCount[],
  open: string | null,
): AlternationReading {
  const { order, times } = alternation;
  const held = alternation.sessions.filter(({ sessionId }) => sessionId !== open);
  const last = Math.max(0, ...held.map(({ place }) => place));
  const places = new Map(held.map(({ sessionId, place }) => [sessionId, place]));
  const points = sessions.flatMap(({ sessionId, source, on, off }) => {
    const place = places.get(sessionId);
    if (place === undefined || source !== "self" || on + off === 0) return [];
    return { place, value: on / (on + off) };
  });
  const of = (letter: string) => points.filter(({ place }) => order[place - 1] === letter).length;
  return {
    held: last,
    sessions: order.length,
    test: last < order.length ? notComputable("unfinished") : alternationTest(order, points),
    standard: alternationStandard({ A: of("A"), B: of("B") }),
    redrawn: times > 1,
  };
}
