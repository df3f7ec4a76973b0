import { randomBytes, scrypt } from "node:crypto";
import { codeFrom } from "../../../shared/seats/code.ts";
import type { Seats } from "../../store/seats/seats.ts";

/** Codes that were right once are known again at once, so that a class comes back quickly after a break. */
const mostRemembered = 600;

export interface SeatCodes {
  /** A code that nobody has. */
  make(): string;
  /** What is kept of a code: slow to compute (some 50 ms), the same for the same code of this data folder. */
  hash(code: string): Promise<string>;
  /** A code that opened a seat: hashing it again takes no time while the app runs. */
  remember(code: string, hashed: string): void;
}

/** One salt for all codes of a data folder, so that a seat is found by its code without trying each. */
export function seatCodes(seats: Seats): SeatCodes {
  const known = new Map<string, string>();
  const salt = (): string => {
    const there = seats.note("salt");
    if (there !== null) return there;
    const made = randomBytes(18).toString("base64url");
    seats.saveNote("salt", made);
    return made;
  };
  return {
    make() {
      for (;;) {
        const code = codeFrom(randomBytes(24));
        if (code !== null) return code;
      }
    },
    async hash(code) {
      const remembered = known.get(code);
      if (remembered !== undefined) return remembered;
      const key = await new Promise<Buffer>((resolve, reject) => {
        scrypt(code, salt(), 32, (error, derived) =>
          error === null ? resolve(derived) : reject(error),
        );
      });
      return key.toString("base64url");
    },
    remember(code, hashed) {
      if (known.size >= mostRemembered) known.clear();
      known.set(code, hashed);
    },
  };
}
