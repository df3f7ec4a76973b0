import { readdirSync, readFileSync, statSync } from "node:fs";
import { dirname, join } from "node:path";
import { describe, expect, it } from "vitest";
import { fileCircles, filesUnder, folderCircles, importsOf, root, worded } from "./imports.ts";

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
    expect([...places].sort()).toEqual([
      "electron/host/carrier.ts",
      "shared/api",
      "src/api/client.ts",
    ]);
  });

  it("the server for students' devices reaches nothing of the app: no procedure, carrier or store", () => {
    // Whatever these files import, they can call; what is on this list imports nothing else in its turn.
    const allowed = /^(electron\/seats\/|shared\/seats\/|node:|ws$)/;
    const found = importsOf("electron/seats").filter(({ to }) => !allowed.test(to));
    expect(worded(found)).toEqual([]);
    const beyond = importsOf("shared/seats").filter(
      ({ to }) => !/^(shared\/seats\/|zod$)/.test(to),
    );
    expect(worded(beyond)).toEqual([]);
    expect(importsOf("electron/seats").length).toBeGreaterThan(10);
  });

  it("the page for students' devices takes types of its messages, and none of the app's page", () => {
    const allowed = /^(src\/seat\/|shared\/seats\/|src\/text\/(en|es)\/seat-page\.json$)/;
    expect(worded(importsOf("src/seat").filter(({ to }) => !allowed.test(to)))).toEqual([]);
  });

  it("shared has no clock and no chance of its own", () => {
    const impure = /\bDate\.now\b|\bnew Date\(\)|\bMath\.random\b|\bperformance\.|\bcrypto\./;
    const found = filesUnder("shared").filter((file) =>
      impure.test(readFileSync(join(root, file), "utf8").replace(/\/\*[\s\S]*?\*\/|\/\/.*/g, "")),
    );
    expect(found).toEqual([]);
  });
});

describe("the floors inside shared", () => {
  const floors = [
    ["plan", "phase", "calendar", "roster", "sound", "statistics"],
    ["session", "schedule"],
    ["analysis", "agreement", "record"],
    ["advice", "points"],
    ["home", "teams"],
    ["reading"],
  ];
  const floorOf = (file: string) =>
    floors.findIndex((rooms) => rooms.includes(file.split("/")[1] ?? ""));

  it("every room stands on a floor, beside the API, the files that leave, and the seats", () => {
    const rooms = readdirSync(join(root, "shared")).filter((name) =>
      statSync(join(root, "shared", name)).isDirectory(),
    );
    const known = [...floors.flat(), "api", "transfer", "seats"];
    expect(rooms.filter((room) => !known.includes(room))).toEqual([]);
  });

  it("no room imports a floor above its own", () => {
    const up = importsOf("shared").filter(
      ({ from, to }) => floorOf(from) >= 0 && floorOf(to) > floorOf(from),
    );
    expect(worded(up)).toEqual([]);
  });

  it("only the API and reading may name the files that leave", () => {
    const named = importsOf("shared").filter(
      ({ from, to }) => to.startsWith("shared/transfer/") && floorOf(from) >= 0,
    );
    expect(worded(named)).toEqual([]);
  });
});

describe("the rooms of the page", () => {
  const screenOf = (file: string) => /^src\/screens\/([^/]+)\//.exec(file)?.[1];

  it("a screen imports no other screen", () => {
    const found = importsOf("src").filter(
      ({ from, to }) =>
        screenOf(from) !== undefined &&
        screenOf(to) !== undefined &&
        screenOf(from) !== screenOf(to),
    );
    expect(worded(found)).toEqual([]);
  });

  it("only the app itself names screens", () => {
    const found = importsOf("src").filter(
      ({ from, to }) =>
        screenOf(to) !== undefined && screenOf(from) === undefined && !from.startsWith("src/app/"),
    );
    expect(worded(found)).toEqual([]);
  });
});

describe("folders", () => {
  it.each(["shared", "src", "electron"])("of %s import each other in no circle", (floor) => {
    const imports = importsOf(floor).filter(({ to }) => to.startsWith(`${floor}/`));
    for (const depth of [2, 3, 4]) expect(folderCircles(imports, depth)).toEqual([]);
  });

  it.each(["shared", "src", "electron"])(
    "hold no files that import each other in a circle: %s",
    (floor) => {
      expect(fileCircles(importsOf(floor).filter(({ to }) => to.startsWith(`${floor}/`)))).toEqual(
        [],
      );
    },
  );

  it("a circle would be seen", () => {
    const there = { from: "src/a/one.ts", to: "src/b/two.ts" };
    const back = { from: "src/b/three.ts", to: "src/a/four.ts" };
    expect(folderCircles([there, back], 2)).toEqual([["src/a", "src/b"]]);
    expect(folderCircles([there], 2)).toEqual([]);
  });

  it("of src are tied by fewer than sixty arrows between its rooms", () => {
    const room = (path: string) => path.split("/")[1];
    const arrows = importsOf("src")
      .filter(({ to }) => to.startsWith("src/") && !to.endsWith(".css"))
      .map(({ from, to }) => [room(from), room(to)])
      .filter(([from, to]) => from !== to)
      .map((ends) => ends.join(" > "));
    expect(new Set(arrows).size).toBeLessThan(60);
  });

  it.each(["shared", "src", "electron"])("of %s hold fewer than thirty files", (floor) => {
    const sizes = new Map<string, number>();
    for (const file of filesUnder(floor)) {
      sizes.set(dirname(file), (sizes.get(dirname(file)) ?? 0) + 1);
    }
    expect([...sizes].filter(([, files]) => files >= 30)).toEqual([]);
  });
});
