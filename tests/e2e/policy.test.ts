import { expect, it } from "vitest";
import { oneApp } from "./support/one-app.ts";

const app = oneApp();

/** Has the page keep what the content policy forbade it, from its first moment. */
function watchPolicy() {
  const forbidden: string[] = [];
  document.addEventListener("securitypolicyviolation", (event) => {
    forbidden.push(`${event.effectiveDirective}: ${event.blockedURI}`);
  });
  Object.assign(window, { forbiddenSeen: forbidden });
}

it("No page tries what the content policy forbids", async () => {
  const page = await app.open("--sample");
  await page.addInitScript(watchPolicy);
  for (const path of ["/", "/groups", "/progress", "/settings", "/board", "/tiles"]) {
    await page.goto(new URL(path, page.url()).href);
    await page.getByRole("main").waitFor();
    await page.waitForTimeout(300);
    expect([path, await page.evaluate("forbiddenSeen")]).toEqual([path, []]);
  }
});
