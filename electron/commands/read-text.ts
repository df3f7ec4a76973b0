import { readFile } from "node:fs/promises";
import { buffer } from "node:stream/consumers";
import { CommandError } from "./command.ts";

/**
 * The text of a file, or of standard input for "-".
 *
 * @throws CommandError when it cannot be read or is not UTF-8.
 */
export async function readText(path: string): Promise<string> {
  const bytes = path === "-" ? await buffer(process.stdin) : await fileBytes(path);
  try {
    return new TextDecoder("utf-8", { fatal: true }).decode(bytes);
  } catch {
    throw new CommandError(
      `${path === "-" ? "Standard input" : path} is not UTF-8 text; save it as "CSV UTF-8" and try again.`,
    );
  }
}

function fileBytes(path: string): Promise<Uint8Array> {
  return readFile(path).catch((error: NodeJS.ErrnoException) => {
    const why = error.code === "ENOENT" ? "there is no such file" : error.message;
    throw new CommandError(`Cannot read ${path}: ${why}.`, 1);
  });
}
