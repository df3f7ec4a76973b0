import { z } from "zod";
import { ticketSchema } from "./entry.ts";
import { procedure } from "./errors.ts";

/** Digits only, because the class's screen may have no keyboard. */
export const codeSchema = z.string().regex(/^\d{4,8}$/);

const codeStateSchema = z.strictObject({ hasCode: z.boolean() });
/** What opens more or less than the window's present ticket; null in the desktop app, which has no tickets. */
const swapSchema = z.strictObject({ ticket: ticketSchema.nullable() });

/** The screen that shows the class its tiles and nothing else, and the adult's way out of it. */
export const classScreen = {
  /**
   * A ticket that opens only what the class screen needs. `here` says that the asking window takes it in
   * place of its own: then no ticket of the adult's stays good that no other open window uses, so that a tab
   * which was closed before and is brought back opens nothing.
   */
  enter: procedure.input(z.strictObject({ here: z.boolean() })).output(swapSchema),
  /** The way out; `code` is null where none is set. Refused while wrong codes are waited out. */
  leave: procedure.input(z.strictObject({ code: codeSchema.nullable() })).output(swapSchema),
  /** Whether leaving takes a code. */
  code: procedure.output(codeStateSchema),
  /** Sets another code, or none. */
  setCode: procedure.input(z.strictObject({ code: codeSchema.nullable() })).output(codeStateSchema),
};
