import type { Page } from "playwright";
import type { RouteObject } from "react-router";
import { routes } from "../../../src/app/routes.tsx";
import { openedBy } from "./one-app.ts";

/** Every address that the app has a screen for, as the router writes it: "/groups/:groupId/room". */
export const everyRoute: readonly string[] = pathsOf(routes, "");

function pathsOf(list: readonly RouteObject[], above: string): string[] {
  return list.flatMap(({ path, index, children }) => {
    if (path === "*") return [];
    const here = path === undefined ? above : path.startsWith("/") ? path : `${above}/${path}`;
    if (children !== undefined) return pathsOf(children, here);
    return path === undefined && index !== true ? [] : [here];
  });
}

// What shows that a screen has its content; a heading or a sheet of paper where nothing stands here.
const readyAt: Readonly<Record<string, string>> = {
  "/": ".today-group",
  "/groups": ".groups-row",
  "/groups/:groupId": ".groups-student",
  "/groups/:groupId/plans/:planId": ".plan-happens-cues",
  "/groups/:groupId/points": ".points-row",
  "/groups/:groupId/teams": ".teams-card",
  "/groups/:groupId/pairs": ".roll-names",
  "/groups/:groupId/home-cards": ".home-card",
  "/groups/:groupId/students/:studentId/agreed": ".page-section",
  "/groups/:groupId/students/:studentId/home-card": ".page-section",
  "/groups/:groupId/students/:studentId/contract": ".page-section",
  "/session/:sessionId/cards": "[role=grid]",
  "/progress/:groupId": ".chart",
  "/progress/:groupId/:studentId": ".chart",
  "/progress/how-sure/:groupId": "table",
  "/own/:groupId/:studentId": ".own-sessions",
  "/tiles": "main",
  "/board": ".board",
};

const readyOn = (route: string) =>
  readyAt[route] ?? (route.startsWith("/print/") ? ".sheet" : "h1");

/** The roster place of an invented student about whom everything is known, a contract too. */
const known = 1;

/** Shows any route of the invented class, ready to be looked at, in the size of the page it was given. */
export async function sampleRoutes(page: Page): Promise<(route: string) => Promise<Page>> {
  const { origin } = new URL(page.url());
  const lastOf = async (address: string, selector: string, nth = 0) => {
    await page.goto(origin + address);
    const link = page.locator(selector).nth(nth);
    await link.waitFor();
    return (
      (await link.getAttribute("href"))
        ?.replace(/\/cards$/, "")
        .split("/")
        .at(-1) ?? ""
    );
  };
  const groupId = await lastOf("/", ".today-group a[href^='/groups/']");
  const ids: Record<string, string> = {
    groupId,
    planId: await lastOf(`/groups/${groupId}`, "a[href*='/plans/']"),
    studentId: await lastOf(`/progress/${groupId}`, `a[href^='/progress/${groupId}/']`, known),
    sessionId: await lastOf("/", "a[href$='/cards']"),
  };
  const addressOf = (route: string) =>
    route.replace(/:(\w+)/g, (_, name: string) => {
      const id = ids[name];
      if (id === undefined) throw new Error(`The sample has no ${name}, which ${route} asks for.`);
      return id;
    });
  let classPage: Page | null = null;
  return async (route) => {
    // Once a tab is the class screen it stays that.
    if (route === "/tiles" && classPage === null) classPage = await openedBy(page, route);
    const shown = route === "/tiles" && classPage !== null ? classPage : page;
    const size = page.viewportSize();
    if (size !== null) await shown.setViewportSize(size);
    await shown.goto(origin + addressOf(route));
    // Slips are made when they are asked for and kept nowhere.
    if (route === "/print/seats/:groupId") await shown.locator(".notice button").click();
    await shown.locator(readyOn(route)).first().waitFor();
    await shown.evaluate(() => document.fonts.ready.then(() => undefined));
    return shown;
  };
}
