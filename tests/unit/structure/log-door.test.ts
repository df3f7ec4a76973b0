import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, it } from "vitest";
import { filesUnder, root } from "./imports.ts";

it("the session log has one door: nothing else on the desktop side appends to it", () => {
  const appending = filesUnder("electron").filter((file) =>
    /\blog\.append(All)?\(/.test(readFileSync(join(root, file), "utf8")),
  );
  // The ledger follows the log from underneath: what the door appends passes through it.
  expect(appending).toEqual([
    "electron/services/live/log-door.ts",
    "electron/services/points/settling.ts",
  ]);
});
