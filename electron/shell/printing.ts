import { writeFile } from "node:fs/promises";
import { join } from "node:path";
import type { BrowserWindow, Dialog } from "electron";
import type { PdfOutcome, PdfRequest } from "../../shared/api/shell.ts";
import type { ShellWords } from "./words.ts";

// Characters that one of the three systems does not take in a file name, and those that turn its writing
// round, so that an ending reads as another one. The joiners of scripts and of pictures stay.
const unfitForFiles = /[\\/:*?"<>|\p{Cc}\u200e\u200f\u202a-\u202e\u2066-\u2069]+/gu;
/** Names of devices, whatever ending follows: Windows opens none of them as a file. */
const deviceName = /^(con|prn|aux|nul|com\d|lpt\d)(?=\.|$)/i;

/** A file name for a document: no path parts, no characters that any system refuses, never empty. */
export function pdfFileName(name: string): string {
  const fit = name
    .replace(unfitForFiles, " ")
    .replace(/\s+/g, " ")
    .replace(/^[. ]+|[. ]+$/g, "");
  const free = fit === "" ? "Pebblechime" : fit.replace(deviceName, "$1_");
  return `${free}.pdf`;
}

/** Lays the window's page out on paper and saves it where the teacher says. */
export async function savePdf(
  window: BrowserWindow,
  request: PdfRequest,
  desk: { readonly dialog: Dialog; readonly folder: string; readonly words: ShellWords },
): Promise<PdfOutcome> {
  const { canceled, filePath } = await desk.dialog.showSaveDialog(window, {
    title: desk.words.savePdf,
    defaultPath: join(desk.folder, pdfFileName(request.name)),
    filters: [{ name: "PDF", extensions: ["pdf"] }],
  });
  if (canceled || filePath === "") return { kind: "cancelled" };
  try {
    const pdf = await window.webContents.printToPDF({
      pageSize: request.paper,
      // Sheets that are laid out for one paper say so in their style; other pages have the paper asked for.
      preferCSSPageSize: true,
      printBackground: true,
      generateTaggedPDF: true,
    });
    await writeFile(filePath, pdf);
  } catch (error) {
    // Its kind only: the file's name may be a child's.
    console.error(
      `A PDF could not be saved: ${error instanceof Error ? error.name : typeof error}`,
    );
    return { kind: "failed", message: desk.words.pdfFailed };
  }
  return { kind: "saved", file: filePath };
}
