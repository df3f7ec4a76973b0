import { readFile } from "node:fs/promises";
import { extname, join, sep } from "node:path";
import { securityHeaders } from "./content-policy.ts";

const kinds: Readonly<Record<string, string>> = {
  ".html": "text/html; charset=utf-8",
  ".js": "text/javascript; charset=utf-8",
  ".css": "text/css; charset=utf-8",
  ".json": "application/json",
  ".map": "application/json",
  ".svg": "image/svg+xml",
  ".png": "image/png",
  ".ico": "image/x-icon",
  ".wav": "audio/wav",
  ".ogg": "audio/ogg",
  ".mp3": "audio/mpeg",
  ".woff2": "font/woff2",
  ".txt": "text/plain; charset=utf-8",
};

/**
 * Answers requests for the page's files, the same way under the app's own scheme and on loopback.
 * A path without an ending is a screen and gets the page itself. Only files of known kinds inside the
 * folder are given out; whatever else is asked for is not found.
 * @param folder the built page (dist/app)
 */
export function appFiles(folder: string): (request: Request) => Promise<Response> {
  return async ({ method, url }) => {
    if (method !== "GET" && method !== "HEAD") return answer(405, "Only reading is possible here.");
    const path = pathWithin(folder, new URL(url).pathname);
    const kind = path === null ? undefined : kinds[extname(path)];
    if (path === null || kind === undefined) return answer(404, "There is no such file.");
    let content: Buffer<ArrayBuffer>;
    try {
      content = await readFile(path);
    } catch {
      return answer(404, "There is no such file.");
    }
    const headers = {
      ...securityHeaders,
      "content-type": kind,
      "content-length": String(content.byteLength),
      "cache-control": isNamedByContent(path) ? "max-age=31536000, immutable" : "no-cache",
    };
    return new Response(method === "HEAD" ? null : content, { headers });
  };
}

/** The file a path asks for, or null when it points outside the folder or cannot be decoded. */
function pathWithin(folder: string, pathname: string): string | null {
  let decoded: string;
  try {
    decoded = decodeURIComponent(pathname);
  } catch {
    return null;
  }
  // One spelling per file: no back-steps, no other separators, no streams or drives, no hidden files.
  if (/[\\:\0]/.test(decoded) || decoded.split("/").some((part) => part.startsWith(".")))
    return null;
  const path = join(folder, extname(decoded) === "" ? "index.html" : decoded);
  return path.startsWith(folder.endsWith(sep) ? folder : folder + sep) ? path : null;
}

/** Built files carry a hash of their content in their names, so they never change. */
function isNamedByContent(path: string): boolean {
  return path.includes(`${sep}assets${sep}`);
}

function answer(status: number, text: string): Response {
  const headers = { ...securityHeaders, "content-type": "text/plain; charset=utf-8" };
  return new Response(text, { status, headers });
}
