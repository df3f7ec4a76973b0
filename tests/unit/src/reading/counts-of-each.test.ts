import { expect, it } from "vitest";
import { readFamily } from "../../../../shared/reading/told/family-reading.ts";
import { readOwn } from "../../../../shared/reading/told/own-reading.ts";
import { runJob } from "../../../../src/reading/analysis-job.ts";
import { countsOf, eachCounts, partedCounts } from "../../../../src/reading/counts-of-each.ts";
import { groupCounts, session } from "../../shared/reading/builders.ts";

/** s1 was always here; s2 came after two sessions in another group, and was in the last one here. */
function withOneWhoMoved() {
  const here = groupCounts(
    [session("a", "2026-10-05"), session("b", "2026-10-08")],
    [
      {
        self: [
          [4, 6, 0],
          [5, 5, 0],
        ],
      },
      { self: [null, [8, 2, 0]] },
    ],
  );
  const students = here.students.map((one) => ({ ...one, hasMoved: one.id === "s2" }));
  const everywhere = groupCounts(
    [session("x", "2026-10-01"), session("y", "2026-10-02"), session("b", "2026-10-08")],
    [
      {
        self: [
          [7, 3, 0],
          [9, 1, 0],
          [8, 2, 0],
        ],
      },
    ],
  );
  const { group: _g, students: _s, phases, daysOff: _d, today: _t, ...found } = everywhere;
  const logged = { ...found, counts: found.counts.map((one) => ({ ...one, studentId: "s2" })) };
  const ofGroup = { ...here, students, number: 1 };
  return { ofGroup, own: { studentId: "s2", logged, phases, number: 2 } };
}

it("reads who moved from every group, and all others from this one", () => {
  const { ofGroup, own } = withOneWhoMoved();
  const each = eachCounts(ofGroup, ["s2"], [own]);
  if (each === undefined) throw new Error("Nothing is known");
  expect(readOwn(countsOf(each, "s1"), "s1").sessions.map(({ on }) => on)).toEqual([4, 5]);
  expect(readOwn(countsOf(each, "s2"), "s2").sessions.map(({ on }) => on)).toEqual([7, 9, 8]);
  // The present group alone knows one session of it.
  expect(readOwn(ofGroup, "s2").sessions).toHaveLength(1);
});

it("asks for every family once, and answers as a reading of each student's own counts", () => {
  const { ofGroup, own } = withOneWhoMoved();
  const each = eachCounts(ofGroup, ["s2"], [own]);
  if (each === undefined) throw new Error("Nothing is known");
  const readings = partedCounts(each).flatMap((counts) => {
    const answer = runJob(counts, { kind: "families", goal: 0.8 });
    return answer.kind === "families" ? answer.readings : [];
  });
  expect(readings).toEqual(["s1", "s2"].map((id) => readFamily(countsOf(each, id), id, 0.8)));
  expect(readings.map(({ lately }) => lately?.sessions)).toEqual([2, 3]);
});

it("waits for who moved rather than print the half of it", () => {
  const { ofGroup, own } = withOneWhoMoved();
  expect(eachCounts(ofGroup, ["s2"], [])).toBeUndefined();
  // An answer that is still about somebody else is not taken for this student's.
  expect(eachCounts(ofGroup, ["s2"], [{ ...own, studentId: "s9" }])).toBeUndefined();
  expect(eachCounts(ofGroup, [], [])).toEqual({ ofGroup, own: new Map() });
});
