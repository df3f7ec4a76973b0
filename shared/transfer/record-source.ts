/** Where the counts of a record come from: the student's own marks, or a watching adult's. */
export const recordSources = ["self", "observer"] as const;
export type RecordSource = (typeof recordSources)[number];

/** The source that a field names, in any capitals; undefined for anything else. */
export function sourceIn(field: string): RecordSource | undefined {
  const word = field.toLowerCase();
  return recordSources.find((source) => source === word);
}
