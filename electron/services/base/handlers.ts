import type {
  ProcedureInputs,
  ProcedureOutputs,
  Procedures,
} from "../../../shared/api/procedures.ts";

/** Who is calling and whether they still want the answer. */
export interface CallContext {
  /** One per connected page; a page that reloads gets a new one. */
  readonly clientId: string;
  /** Aborts when the caller cancels or goes away. */
  readonly signal: AbortSignal;
}

type Awaitable<Value> = Value | Promise<Value>;
type Returned<Output> = [Output] extends [AsyncIterator<infer Item, unknown>]
  ? AsyncIterable<Item>
  : Awaitable<Output>;

/**
 * The plain functions behind the API: one per procedure, the input already validated. A handler throws
 * `Refusal` or `Missing` to say no; whatever else it throws reaches the caller as FAILED.
 */
export type Handlers = {
  readonly [Subject in keyof Procedures]: {
    readonly [Name in keyof Procedures[Subject]]: (
      input: Name extends keyof ProcedureInputs[Subject] ? ProcedureInputs[Subject][Name] : never,
      context: CallContext,
    ) => Returned<
      Name extends keyof ProcedureOutputs[Subject] ? ProcedureOutputs[Subject][Name] : never
    >;
  };
};
