import { z } from "zod";
import { readableJson } from "./stored-json.ts";

const count = z.int().min(0);

/** What counting needs of the kinds that say more than their columns. */
const details = new Map<string, z.ZodType<Readonly<Record<string, unknown>>>>([
  ["total", z.looseObject({ on: count, off: count })],
  ["observed", z.looseObject({ observer: z.union([z.literal(1), z.literal(2)]) })],
  ["work", z.looseObject({ assigned: count, completed: count, correct: count.nullable() })],
  ["note", z.looseObject({ text: z.string() })],
  ["left-out", z.looseObject({ reason: z.string() })],
  ["interruption", z.looseObject({ note: z.string() })],
]);

/** The detail of an event as far as counting needs it, or null when it cannot be read. */
export function eventDetail(
  kind: string,
  detail: string | null,
): Readonly<Record<string, unknown>> | null {
  const schema = details.get(kind);
  if (schema === undefined) return {};
  return readableJson(schema, detail ?? "{}") ?? null;
}
