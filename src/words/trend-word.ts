import type { Stated } from "../../shared/analysis/statements/statement.ts";
import { isSteady } from "../../shared/analysis/statements/steady.ts";
import type { Result } from "../../shared/statistics/result.ts";
import type { Voice } from "./words.ts";

/** A trend since the program began in one word: rising, falling, steady, or that it cannot be told. */
export function wordTrend({ say }: Pick<Voice, "say">, trend: Result<Stated>): string {
  if (trend.kind === "not-enough") return say("class.trend.few");
  const { evidence, direction } = trend;
  if (isSteady(trend)) return say("class.trend.steady");
  if (evidence === "cannot-tell" || direction === "level") return say("class.trend.cannot-tell");
  return say(`class.trend.${evidence}`, { direction });
}
