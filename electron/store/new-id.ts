import { v7 } from "uuid";

/** A fresh UUIDv7, in time order by the given wall clock (ms since 1970 UTC). */
export function newId(wallMs: number): string {
  return v7({ msecs: Math.max(0, Math.trunc(wallMs)) });
}
