import { StoreError } from "../../store/file/store-error.ts";
import type { Handlers } from "./handlers.ts";
import { Refusal } from "./refusal.ts";

/**
 * The same handlers, with what the disk or the data file refuses told as a refusal of its own sentence
 * ("the disk is full ...") instead of as an unknown failure.
 */
export function withStoreRefusals(handlers: Handlers): Handlers {
  const subjects = Object.entries(handlers).map(([subject, procedures]) => [
    subject,
    Object.fromEntries(
      Object.entries(procedures).map(([name, handler]) => [name, refusing(handler)]),
    ),
  ]);
  // Object.fromEntries forgets the names and types; they are those of `handlers`.
  return Object.fromEntries(subjects) as Handlers;
}

type AnyHandler = (...values: never[]) => unknown;

function refusing<Handler extends AnyHandler>(handler: Handler): AnyHandler {
  return (...values) => {
    try {
      const answer = handler(...values);
      if (answer instanceof Promise) return answer.catch(refuse);
      return isStream(answer) ? refusingStream(answer) : answer;
    } catch (error) {
      return refuse(error);
    }
  };
}

type Stream = AsyncIterableIterator<unknown, unknown, undefined>;

const isStream = (answer: unknown): answer is Stream =>
  typeof answer === "object" && answer !== null && Symbol.asyncIterator in answer;

/** A stream reads from the store at each step, long after it was asked for. */
function refusingStream(stream: Stream): Stream {
  return {
    next: () => stream.next().catch(refuse),
    return: (value) => stream.return?.(value) ?? Promise.resolve({ done: true, value: undefined }),
    throw: (cause) => stream.throw?.(cause) ?? Promise.reject(cause),
    [Symbol.asyncIterator]() {
      return this;
    },
  };
}

function refuse(error: unknown): never {
  if (!(error instanceof StoreError)) throw error;
  const refusal = new Refusal("store-failed", error.message, { problem: error.problem });
  refusal.cause = error;
  throw refusal;
}
