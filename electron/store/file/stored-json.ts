import type { z } from "zod";
import { StoreError } from "./store-error.ts";

/**
 * What a column keeps as JSON.
 *
 * @throws StoreError `damaged` when it cannot be read; what stands there is quoted nowhere
 */
export function storedJson<Kept>(schema: z.ZodType<Kept>, text: string): Kept {
  const kept = readableJson(schema, text);
  if (kept === undefined) throw new StoreError("damaged");
  return kept;
}

/** The same, or undefined when it cannot be read. */
export function readableJson<Kept>(schema: z.ZodType<Kept>, text: string): Kept | undefined {
  try {
    return schema.safeParse(JSON.parse(text)).data;
  } catch (error) {
    if (error instanceof SyntaxError) return undefined;
    throw error;
  }
}
