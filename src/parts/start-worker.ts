import { ownAddress } from "./text-policy.ts";

/**
 * Starts one of the page's helpers.
 *
 * @param address as the build gives it for an import that ends in `?worker&url`
 * @throws TypeError for any other address
 */
export function startWorker(address: string): Worker {
  return new Worker(ownAddress(address), { type: "module" });
}
