import type { RefusalCode } from "../../shared/api/errors.ts";

/** One field of an input that the desktop side did not accept. */
export interface InputIssue {
  /** Where in the input, such as `settings.meanSeconds`; empty for the input as a whole. */
  readonly path: string;
  readonly message: string;
}

/** Every way in which a call can fail, with what a screen needs to say about it. */
export type ApiFailure =
  | {
      readonly kind: "refused";
      readonly code: RefusalCode;
      readonly values: Readonly<Record<string, string | number>>;
    }
  | { readonly kind: "missing"; readonly what: string }
  | { readonly kind: "bad-input"; readonly issues: readonly InputIssue[] }
  /** The line was down or went down: whether the call took effect is not known. */
  | { readonly kind: "unreachable" }
  /** Something broke on the desktop side; its log holds more under the reference. */
  | { readonly kind: "failed"; readonly reference: string };

/** What a call rejects with, unless its own signal cancelled it: then it is that signal's reason. */
export class ApiError extends Error {
  readonly failure: ApiFailure;

  /** @param message one English sentence, for logs; screens word the failure from their catalogue */
  constructor(failure: ApiFailure, message: string) {
    super(message);
    this.name = "ApiError";
    this.failure = failure;
  }
}

/** Whether the desktop side said no, for this reason or, without a code, for any. */
export function isRefusal(error: unknown, code?: RefusalCode): error is ApiError {
  if (!(error instanceof ApiError) || error.failure.kind !== "refused") return false;
  return code === undefined || error.failure.code === code;
}

/** Whether the line to the desktop side was down. */
export function isUnreachable(error: unknown): error is ApiError {
  return error instanceof ApiError && error.failure.kind === "unreachable";
}

/** The error of a call whose line was down. */
export function unreachable(): ApiError {
  return new ApiError(
    { kind: "unreachable" },
    "The app's other half cannot be reached just now. It is tried again by itself.",
  );
}
