import { expect, it } from "vitest";
import { type JobProgress, runJob } from "../../../../src/reading/analysis-job.ts";
import { groupCounts, session } from "../../shared/reading/builders.ts";

it("tells how many students of a group are done, and answers the same without a listener", () => {
  const counts = groupCounts(
    [session("a", "2026-10-05"), session("b", "2026-10-06")],
    [
      { self: [[4, 6, 0], null] },
      {
        self: [
          [9, 1, 0],
          [8, 2, 0],
        ],
      },
      { self: [null, null] },
    ],
  );
  const studentIds = counts.students.map(({ id }) => id);
  const told: JobProgress[] = [];
  const job = { kind: "group", studentIds } as const;
  const answer = runJob(counts, job, (progress) => told.push(progress));
  expect(told).toEqual([0, 1, 2].map((done) => ({ done, total: 4 })));
  expect(answer).toEqual(runJob(counts, job));
});
