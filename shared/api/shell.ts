import { z } from "zod";

/**
 * What a page may ask of the window it lives in. Only the desktop app has such a window: in a browser
 * `window.pebblechime` is absent and the page uses a tab and the browser's own printing instead.
 */
export interface ShellBridge {
  readonly platform: string;
  /**
   * Asks for a fresh API port and closes the one this frame had. The port arrives as a window message
   * whose data is `{ kind: portMessage }` (see port-message.ts), with the port as its only transferred object.
   */
  openPort(): Promise<PortOutcome>;
  /** Shows the class board in a window of its own, on a second display when there is one. */
  openBoard(): Promise<BoardOutcome>;
  /** Prints this page, as its print style lays it out, to a PDF file that the teacher names. */
  savePdf(request: PdfRequest): Promise<PdfOutcome>;
}

export const nothingAskedSchema = z.undefined();

export const pdfRequestSchema = z.strictObject({
  /** The proposed file name, without its ending. */
  name: z.string().trim().min(1).max(120),
  paper: z.enum(["A4", "Letter"]),
});
export type PdfRequest = z.infer<typeof pdfRequestSchema>;

/** The shell refused or could not; the sentence says what to do and is fit for a teacher. */
export interface ShellFailure {
  readonly kind: "failed";
  readonly message: string;
}
export type PortOutcome = { readonly kind: "opened" } | ShellFailure;
export type BoardOutcome =
  | { readonly kind: "opened"; readonly display: "second" | "only" }
  | ShellFailure;
export type PdfOutcome =
  | { readonly kind: "saved"; readonly file: string }
  | { readonly kind: "cancelled" }
  | ShellFailure;
