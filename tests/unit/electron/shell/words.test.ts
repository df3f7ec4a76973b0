import type { MenuItemConstructorOptions } from "electron";
import { describe, expect, it } from "vitest";
import { menuTemplate } from "../../../../electron/shell/menu.ts";
import { pdfFileName } from "../../../../electron/shell/printing.ts";
import { startProblem } from "../../../../electron/shell/start-problem.ts";
import { languageOf, shellWords } from "../../../../electron/shell/words.ts";
import { StoreError, storeProblems } from "../../../../electron/store/file/store-error.ts";

const nothing = {
  openBoard() {},
  print() {},
  savePdf() {},
  openDataFolder() {},
  classShown: false,
};

function everyItem(items: readonly MenuItemConstructorOptions[]): MenuItemConstructorOptions[] {
  return items.flatMap((item) => [
    item,
    ...(Array.isArray(item.submenu) ? everyItem(item.submenu) : []),
  ]);
}

describe("the menu", () => {
  it("labels every item in either language and gives no shortcut twice", () => {
    for (const language of ["en", "es"] as const) {
      for (const platform of ["darwin", "win32", "linux"]) {
        const items = everyItem(menuTemplate(shellWords[language], platform, nothing));
        const bare = items.filter(({ type, role }) => type !== "separator" && role !== "appMenu");
        expect(bare.every(({ label }) => label !== undefined && label !== "")).toBe(true);
        const shortcuts = items.flatMap(({ accelerator }) => accelerator ?? []);
        expect(new Set(shortcuts).size).toBe(shortcuts.length);
      }
    }
  });

  it("keeps quitting where each system has it", () => {
    const roles = (platform: string) =>
      everyItem(menuTemplate(shellWords.en, platform, nothing)).map(({ role }) => role);
    expect(roles("win32")).toContain("quit");
    expect(roles("darwin")).not.toContain("quit");
    expect(roles("darwin")).toContain("appMenu");
  });
});

describe("the menu while the class screen is up", () => {
  it("leads to no page and no file where one menu belongs to all windows", () => {
    const items = everyItem(
      menuTemplate(shellWords.en, "darwin", { ...nothing, classShown: true }),
    );
    expect(items).toEqual([{ role: "appMenu" }]);
  });
});

describe("languageOf", () => {
  it("speaks Spanish to Spanish systems and English to all others", () => {
    expect(["es", "es-MX", "ES-419", "en-GB", "fr", ""].map(languageOf)).toEqual([
      "es",
      "es",
      "es",
      "en",
      "en",
      "en",
    ]);
  });
});

describe("pdfFileName", () => {
  it("makes a name that each system takes", () => {
    expect(pdfFileName("Week 12: 3/4 done?")).toBe("Week 12 3 4 done.pdf");
    expect(pdfFileName("../../secret")).toBe("secret.pdf");
    expect(["CON", "nul.a", "Com1", "Connie"].map(pdfFileName)).toEqual([
      "CON_.pdf",
      "nul_.a.pdf",
      "Com1_.pdf",
      "Connie.pdf",
    ]);
    expect(pdfFileName("Pine \u202efdp.exe")).toBe("Pine fdp.exe.pdf");
    expect(pdfFileName("عمر 👩‍🏫")).toBe("عمر 👩‍🏫.pdf");
    expect(pdfFileName(" ... ")).toBe("Pebblechime.pdf");
    expect(pdfFileName("Informe de Íñigo\n")).toBe("Informe de Íñigo.pdf");
  });
});

describe("startProblem", () => {
  it("says what to do for each problem of the store, in either language", () => {
    for (const problem of storeProblems) {
      const error = new StoreError(problem);
      const [en, es] = [startProblem(error, "en"), startProblem(error, "es")];
      expect(en.message).not.toBe(es.message);
      expect(es.message).toMatch(/\.$/);
    }
  });

  it("offers a backup only when there is one, and hides what it cannot explain", () => {
    expect(startProblem(new StoreError("damaged", { backup: "b" }), "en").backup).toBe("b");
    const unknown = startProblem(new TypeError("x is not a function"), "en");
    expect(unknown.backup).toBeNull();
    expect(unknown.message).not.toContain("x is not");
  });
});
