import type { RefusalCode } from "../../../shared/api/errors.ts";
import { mostStudents } from "../../../shared/transfer/import-limits.ts";
import { placesText } from "../../../shared/transfer/places.ts";
import { Refusal } from "../base/refusal.ts";

/**
 * Refuses an import as a whole when rows of it cannot be.
 *
 * @param places of those rows in the file, from 1; nothing is refused without any
 * @param why follows "rows 3-5" in the sentence for the log
 */
export function refuseRows(
  code: Extract<RefusalCode, `import-${string}`>,
  places: readonly number[],
  why: string,
): void {
  if (places.length === 0) return;
  const rows = placesText(places);
  throw new Refusal(code, `Nothing was brought in: rows ${rows} ${why}.`, {
    count: places.length,
    rows,
  });
}

export function refuseCrowd(students: number): void {
  if (students <= mostStudents) return;
  throw new Refusal(
    "import-too-large",
    `The group would have ${students} students, more than ${mostStudents}. Check which column holds the names.`,
    { what: "students", have: students, most: mostStudents },
  );
}
