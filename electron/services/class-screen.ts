import { randomBytes, scrypt, timingSafeEqual } from "node:crypto";
import type { Store } from "../store/store.ts";
import type { Changes } from "./base/changes.ts";
import type { DesktopClock } from "./base/clock.ts";
import type { Handlers } from "./base/handlers.ts";
import { Refusal } from "./base/refusal.ts";

/** Wrong codes that cost nothing but the try, as fingers slip. */
const freeTries = 3;
/** Then so long is waited, in ms, twice as long after each further one, up to a minute. */
const firstWaitMs = 5_000;
const longestWaitMs = 60_000;

/**
 * The code that closes the way out of the class screen. Only its hash is kept, and it is checked here,
 * slowly after wrong tries: whoever sits at the class screen has all lesson to try.
 *
 * A host with tickets adds them to what `enter` and `leave` answer.
 */
export function classScreenHandlers(
  { settings }: Pick<Store, "settings">,
  changes: Changes,
  clock: Pick<DesktopClock, "monotonicMs" | "speed">,
): Handlers["classScreen"] {
  const nowMs = () => clock.monotonicMs() / clock.speed;
  let wrongTries = 0;
  let nextTryMs = Number.NEGATIVE_INFINITY;
  // One after the other: of many tries at once all but the first few meet the wait.
  let last: Promise<unknown> = Promise.resolve();
  const inTurn = <Answer>(act: () => Promise<Answer>): Promise<Answer> => {
    const turn = last.then(act);
    last = turn.catch(() => undefined);
    return turn;
  };

  async function check(code: string | null): Promise<void> {
    const hashed = settings.hashedCode();
    if (hashed === null) return;
    const waitSeconds = Math.ceil((nextTryMs - nowMs()) / 1_000);
    if (waitSeconds > 0) {
      throw new Refusal("code-wait", "Wait before the next try.", { seconds: waitSeconds });
    }
    // Being asked for the code is no try.
    if (code === null) throw new Refusal("code-wrong", "Enter the code.", { seconds: 0 });
    if (await isCode(code, hashed)) {
      wrongTries = 0;
      return;
    }
    wrongTries += 1;
    const beyond = wrongTries - freeTries;
    const waitMs = beyond < 0 ? 0 : Math.min(longestWaitMs, firstWaitMs * 2 ** beyond);
    nextTryMs = nowMs() + waitMs;
    throw new Refusal("code-wrong", "This is not the code.", { seconds: waitMs / 1_000 });
  }

  return {
    enter: () => ({ ticket: null }),
    leave: ({ code }) =>
      inTurn(async () => {
        await check(code);
        return { ticket: null };
      }),
    code: () => ({ hasCode: settings.hashedCode() !== null }),
    async setCode({ code }) {
      settings.saveHashedCode(code === null ? null : await hash(code));
      wrongTries = 0;
      nextTryMs = Number.NEGATIVE_INFINITY;
      changes.publish("settings");
      return { hasCode: code !== null };
    },
  };
}

/** scrypt with Node's usual cost: about 50 ms a try. */
function derive(code: string, salt: string): Promise<Buffer> {
  return new Promise((resolve, reject) => {
    scrypt(code, salt, 32, (error, key) => (error === null ? resolve(key) : reject(error)));
  });
}

async function hash(code: string): Promise<string> {
  const salt = randomBytes(16).toString("base64url");
  return `scrypt.${salt}.${(await derive(code, salt)).toString("base64url")}`;
}

async function isCode(code: string, hashed: string): Promise<boolean> {
  const [, salt = "", wanted = ""] = hashed.split(".");
  const key = Buffer.from(wanted, "base64url");
  const given = await derive(code, salt);
  return key.length === given.length && timingSafeEqual(key, given);
}
