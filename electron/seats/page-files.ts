import { readFileSync } from "node:fs";
import { join } from "node:path";

/** The only files that leave; all are read when seats are opened, so that no path ever comes from a device. */
const files = [
  { path: "/", name: "index.html", type: "text/html; charset=utf-8" },
  { path: "/seat.js", name: "seat.js", type: "text/javascript; charset=utf-8" },
  { path: "/seat.css", name: "seat.css", type: "text/css; charset=utf-8" },
] as const;

export interface PageFile {
  readonly type: string;
  readonly content: Buffer;
}

/** @param folder the built page (dist/seats) */
export function pageFiles(folder: string): ReadonlyMap<string, PageFile> {
  return new Map(
    files.map(({ path, name, type }) => [
      path,
      { type, content: readFileSync(join(folder, name)) },
    ]),
  );
}
