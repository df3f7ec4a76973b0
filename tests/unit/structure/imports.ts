import { readdirSync, readFileSync } from "node:fs";
import { dirname, join, relative, resolve } from "node:path";

export const root = resolve(import.meta.dirname, "../../..");

export function filesUnder(folder: string): string[] {
  return readdirSync(join(root, folder), { recursive: true, encoding: "utf8" })
    .filter((name) => /\.tsx?$/.test(name))
    .map((name) => join(folder, name));
}

export interface Import {
  from: string;
  to: string;
}

/** Every import of a folder's files: a path from the project's root, or a package's name. */
export function importsOf(folder: string): Import[] {
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

export const worded = (found: readonly Import[]) =>
  found.map(({ from, to }) => `${from} imports ${to}`);

/**
 * The groups of folders that import each other in a circle, each group in order.
 *
 * @param depth how many folders of a path name a room; what lies deeper belongs to its room
 */
export function folderCircles(imports: readonly Import[], depth: number): string[][] {
  return circles(imports, (file) => dirname(file).split("/").slice(0, depth).join("/"));
}

/** The groups of files that import each other in a circle, for their types too. */
export const fileCircles = (imports: readonly Import[]) => circles(imports, (file) => file);

function circles(imports: readonly Import[], roomOf: (file: string) => string): string[][] {
  const next = new Map<string, Set<string>>();
  for (const { from, to } of imports) {
    const [a, b] = [roomOf(from), roomOf(to)];
    if (!to.includes("/") || a === b) continue;
    next.set(a, (next.get(a) ?? new Set()).add(b));
  }
  const reachable = (start: string) => {
    const seen = new Set<string>();
    const ahead = [...(next.get(start) ?? [])];
    for (let room = ahead.pop(); room !== undefined; room = ahead.pop()) {
      if (seen.has(room)) continue;
      seen.add(room);
      ahead.push(...(next.get(room) ?? []));
    }
    return seen;
  };
  const reach = new Map([...next.keys()].map((room) => [room, reachable(room)]));
  const found = new Map<string, string[]>();
  for (const [room, seen] of reach) {
    if (!seen.has(room)) continue;
    const circle = [...seen].filter((other) => reach.get(other)?.has(room)).sort();
    found.set(circle.join(" "), circle);
  }
  return [...found.values()];
}
