import { z } from "zod";
import type { Scope } from "./entry.ts";

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
  /** Shows one of the app's pages in a window of its own; a page that is shown already comes forward. */
  openWindow(request: WindowRequest): Promise<WindowOutcome>;
  /** Prints this page, as its print style lays it out, to a PDF file that the teacher names. */
  savePdf(request: PdfRequest): Promise<PdfOutcome>;
  /** Has the teacher choose a folder, such as one on a stick. */
  chooseFolder(): Promise<FolderOutcome>;
}

export const nothingAskedSchema = z.undefined();

/**
 * The pages that have a window of their own beside the teacher's: the class board, which fills a second
 * display when there is one, the students' tiles (the class screen), and a second observer's page of one
 * session. The line of the first two opens nothing of the adult's.
 */
export const windowRequestSchema = z.discriminatedUnion("name", [
  z.strictObject({ name: z.literal("board") }),
  /** All tiles, or one student's alone. */
  z.strictObject({ name: z.literal("tiles"), studentId: z.uuidv7().optional() }),
  z.strictObject({ name: z.literal("second-observer"), sessionId: z.uuidv7() }),
]);
export type WindowRequest = z.infer<typeof windowRequestSchema>;

/** Which window a page is shown in: asked for again it takes the same one. */
export function windowKey(request: WindowRequest): string {
  const isOneStudents = request.name === "tiles" && request.studentId !== undefined;
  return isOneStudents ? `tiles-${request.studentId}` : request.name;
}

/** What a browser calls the window of a page that has one of its own; it keeps it through every address. */
export const windowName = (request: WindowRequest): string =>
  `${windowNameStart}${windowKey(request)}`;
export const windowNameStart = "pebblechime-";

/** The address of a page that has a window of its own. */
export function windowPath(request: WindowRequest): `/${string}` {
  if (request.name === "second-observer") return `/session/${request.sessionId}/observe-second`;
  if (request.name === "tiles" && request.studentId !== undefined) {
    return `/tiles?student=${request.studentId}`;
  }
  return `/${request.name}`;
}

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
/** `scope` is what the port opens. */
export type PortOutcome = { readonly kind: "opened"; readonly scope: Scope } | ShellFailure;
export type WindowOutcome =
  | { readonly kind: "opened"; readonly display: "second" | "only" }
  | ShellFailure;
export type FolderOutcome =
  | { readonly kind: "chosen"; readonly folder: string }
  | { readonly kind: "cancelled" }
  | ShellFailure;
export type PdfOutcome =
  | { readonly kind: "saved"; readonly file: string }
  | { readonly kind: "cancelled" }
  | ShellFailure;
