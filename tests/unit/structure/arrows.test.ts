import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";
import { describe, expect, it } from "vitest";

const root = resolve(import.meta.dirname, "../../..");

function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => join(folder, name));
}

interface Import {
  from: string;
  to: string;
}

/** Every import of a folder's files: a path from the project's root, or a package's name. */
function importsOf(folder: string): Import[] {
  return filesUnder(folder).flatMap((file) => {
    const text = readFileSync(join(root, file), "utf8");
    const specifiers = [
      ...text.matchAll(/(?:\bfrom\s|\bimport\s|\bimport\()\s*["']([^"'\n;]+)["']/g),
    ].map((match) => match[1] ?? "");
    return specifiers.map((specifier) => ({
      from: file,
      to: specifier.startsWith(".")
        ? relative(root, resolve(root, dirname(file), specifier))
        : specifier,
    }));
  });
}

const worded = (found: Import[]) => found.map(({ from, to }) => `${from} imports ${to}`);

describe("the arrows of the structure: src -> shared <- electron", () => {
  it("shared imports nothing of the desktop side, the page, or a runtime", () => {
    const allowed = /^(shared\/|seedrandom$|zod$|@orpc\/contract$)/;
    expect(worded(importsOf("shared").filter(({ to }) => !allowed.test(to)))).toEqual([]);
  });

  it("within shared only the API's own files import the API", () => {
    const outside = importsOf("shared").filter(
      ({ from, to }) =>
        !from.startsWith("shared/api/") && (to.startsWith("shared/api/") || to.startsWith("@orpc")),
    );
    expect(worded(outside)).toEqual([]);
  });

  it("the page and the desktop side never import each other", () => {
    const across = [
      ...importsOf("src").filter(({ to }) => /^electron(\/|$)|^node:|^better-sqlite3$/.test(to)),
      ...importsOf("electron").filter(({ to }) => /^src\/|^react/.test(to)),
    ];
    expect(worded(across)).toEqual([]);
  });

  it("the API library is imported in three places only", () => {
    const places = new Set(
      [...importsOf("shared"), ...importsOf("src"), ...importsOf("electron")]
        .filter(({ to }) => to.startsWith("@orpc/"))
        .map(({ from }) => (from.startsWith("shared/api/") ? "shared/api" : from)),
    );
    expect([...places].sort()).toEqual(["electron/carrier.ts", "shared/api", "src/api/client.ts"]);
  });

  it("shared has no clock and no chance of its own", () => {
    const impure = /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bperformance\.|\bcrypto\./;
    const found = filesUnder("shared").filter((file) =>
      impure.test(readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, "")),
    );
    expect(found).toEqual([]);
  });
});
