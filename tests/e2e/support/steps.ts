import type { Page } from "playwright";

export const button = (page: Page, name: string | RegExp) => page.getByRole("button", { name });
export const link = (page: Page, name: string | RegExp) => page.getByRole("link", { name });

/** From an empty notebook to a group with students. */
export async function makeGroup(page: Page, name: string, students: readonly string[]) {
  await page.getByLabel("Group name").fill(name);
  await button(page, "Make this group").click();
  await page.getByRole("heading", { name, exact: true }).waitFor();
  await page.getByLabel("Add students").fill(students.join("\n"));
  await button(page, `Add ${students.length} students`).click();
  await page
    .getByText(students.at(-1) ?? "", { exact: true })
    .first()
    .waitFor();
}
