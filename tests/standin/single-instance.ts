import { mkdirSync, readdirSync, readFileSync, rmSync, watch, writeFileSync } from "node:fs";
import { join } from "node:path";

/** What a second start tells the first. */
export interface SecondStart {
  readonly argv: readonly string[];
  readonly folder: string;
}

/**
 * One running app a user-data folder, decided at once as Electron does: a file names the holder's process,
 * and a later start leaves a note beside it.
 * @returns whether this process is now the holder
 */
export function takeInstance(userData: string, onSecond: (start: SecondStart) => void): boolean {
  const folder = join(userData, "instance");
  const holder = join(folder, "holder");
  mkdirSync(folder, { recursive: true });
  if (!claim(holder)) {
    const start: SecondStart = { argv: process.argv, folder: process.cwd() };
    const note = join(folder, `start-${process.pid}`);
    writeFileSync(`${note}.partial`, JSON.stringify(start));
    writeFileSync(`${note}.json`, JSON.stringify(start));
    rmSync(`${note}.partial`);
    return false;
  }
  const read = () => {
    for (const file of readdirSync(folder).filter((entry) => entry.endsWith(".json"))) {
      const text = readFileSync(join(folder, file), "utf8");
      if (text === "") continue;
      rmSync(join(folder, file));
      onSecond(JSON.parse(text));
    }
  };
  watch(folder, { persistent: false }, read);
  process.on("exit", () => rmSync(folder, { recursive: true, force: true }));
  return true;
}

function claim(holder: string): boolean {
  try {
    writeFileSync(holder, String(process.pid), { flag: "wx" });
    return true;
  } catch {
    if (isAlive(Number(readFileSync(holder, "utf8")))) return false;
    rmSync(holder, { force: true });
    return claim(holder);
  }
}

function isAlive(pid: number): boolean {
  try {
    process.kill(pid, 0);
    return true;
  } catch {
    return false;
  }
}
