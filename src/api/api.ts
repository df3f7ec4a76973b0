import type { Scope } from "../../shared/api/entry.ts";
import type { ProcedureInputs, ProcedureOutputs, Procedures } from "../../shared/api/procedures.ts";
import type { NotLetInReason } from "./enter.ts";

export interface CallOptions {
  /** Cancels the call, or ends the stream, when it aborts. */
  readonly signal?: AbortSignal | undefined;
}

type Answer<Output> =
  Output extends AsyncIterator<infer Item, unknown> ? AsyncIterable<Item> : Output;

type Call<Input, Output> = undefined extends Input
  ? (input?: undefined, options?: CallOptions) => Promise<Answer<Output>>
  : (input: Input, options?: CallOptions) => Promise<Answer<Output>>;

/**
 * All that the page may ask of the desktop side, one function per procedure. Each rejects with an
 * `ApiError` or, when cancelled, with its signal's reason.
 */
export type Api = {
  readonly [Subject in keyof Procedures]: {
    readonly [Name in keyof Procedures[Subject]]: Call<
      Name extends keyof ProcedureInputs[Subject] ? ProcedureInputs[Subject][Name] : never,
      Name extends keyof ProcedureOutputs[Subject] ? ProcedureOutputs[Subject][Name] : never
    >;
  };
};

/**
 * `lost` is between a line that went down and the next attempt; `closed` is for good, and so is `barred`:
 * page and host do not belong together.
 */
export type LinkState = "connecting" | "open" | "lost" | "barred" | "closed";

/** `live` from the moment the stream is open; `waiting` while it is not; `ended` when there is no more. */
export type FollowState = "waiting" | "live" | "ended";

/** A resumable stream, and who is told of it. */
export interface Followed<Item> {
  /**
   * Opens the stream after the last item that `onItem` was given; called again when a line was lost:
   * `(api, signal) => api.sessions.watch({ sessionId, after: lastSeq }, { signal })`.
   */
  readonly open: (api: Api, signal: AbortSignal) => Promise<AsyncIterable<Item>>;
  readonly onItem: (item: Item) => void;
  readonly onState?: (state: FollowState) => void;
  /** Told of a failure that trying again does not correct; the following has then ended. */
  readonly onError?: (error: unknown) => void;
}

/** The API and the line that carries it, which is opened again whenever it goes down. */
export interface Link {
  readonly api: Api;
  state(): LinkState;
  /** Why the page was not let in; null unless the state is `barred`. */
  barredFor(): NotLetInReason | null;
  /** What the window's line opens. */
  scope(): Scope;
  /** Goes on with another line that opens this; what the present one was asked for is lost. */
  renew(scope: Scope): void;
  /** Told of each change; returns the way to stop listening. */
  onState(listener: (state: LinkState) => void): () => void;
  /** Follows a resumable stream through lost lines; returns the way to stop. */
  follow<Item>(stream: Followed<Item>): () => void;
  /** Tries now instead of waiting out the pause, as when the page comes back to the front. */
  retryNow(): void;
  /** Ends the line for good; calls under way reject. */
  close(): void;
}
