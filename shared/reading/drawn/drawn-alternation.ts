import { alternationOrders } from "../../analysis/designs/alternation-test.ts";
import { randomStream } from "../../schedule/stream.ts";

/**
 * Draws the order in which two conditions take turns, each permitted order equally likely. The same seed gives
 * the same order.
 *
 * Source: see `alternationOrders`. Example: drawAlternation("kiwi", 10).length // 10
 */
export function drawAlternation(seed: string, sessions: number): string {
  const orders = alternationOrders(sessions);
  const at = Math.floor(randomStream(seed, "alternation")() * orders.length);
  const order = orders[at];
  if (order === undefined) {
    throw new RangeError(`sessions must be an even whole number from 2; got ${sessions}.`);
  }
  return order;
}
