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
      return answer instanceof Promise ? answer.catch(refuse) : answer;
    } catch (error) {
      return refuse(error);
    }
  };
}

function refuse(error: unknown): never {
  if (!(error instanceof StoreError)) throw error;
  const refusal = new Refusal("store-failed", error.message, { problem: error.problem });
  refusal.cause = error;
  throw refusal;
}
