import { describe, it } from "vitest";
import { delayAnswers } from "./support/delay-calls.ts";
import { oneApp } from "./support/one-app.ts";
import { button, makeGroup } from "./support/steps.ts";

const app = oneApp();

describe("What follows a press, where the news of it comes before the answer", () => {
  it("opens the first group, and the session that was started", async () => {
    const page = await app.open();
    for (const word of ["groups/create", "sessions/start"])
      await page.addInitScript(delayAnswers, { word, ms: 1_500 });
    await page.reload();
    // By then Today shows the group, and the form is gone that made it.
    await makeGroup(page, "Table two", ["Fern", "Robin"]);
    await page.getByRole("link", { name: "Today" }).first().click();
    await button(page, "Start a session with Table two").click();
    await button(page, "Hear the chime").click();
    await button(page, "Yes, it could").click();
    await button(page, "Start the session").click();
    await page.waitForURL(/\/session\//);
    await page.getByRole("region", { name: "Teacher’s strip" }).waitFor();
  });
});
