import type { Page } from "playwright";
import { waitFor } from "../../tests/e2e/support/launch.ts";
import type { Camera } from "./camera.ts";
import type { Words } from "./words.ts";

/** What the round of the live screens needs of a host. */
export interface Stage {
  readonly page: Page;
  readonly words: Words;
  readonly camera: Camera;
  windows(): Page[];
  address(path: string): string;
}

interface Class {
  readonly groupId: string;
  /** What the pictures' names begin with. */
  readonly name: string;
}

/** The code that the class screen asks for in these pictures. */
const code = "4711";
/** After a change a tile takes nothing for 600 ms. */
const tileRestsMs = 800;
const aCueMs = 60_000;

const press = (page: Page, name: string | RegExp) =>
  page.getByRole("button", { name, exact: true }).first().click();

/** Everything that stands on a screen while a class works, from the start to the cards. */
export async function liveRound(stage: Stage, { name: called, groupId }: Class): Promise<void> {
  const { page, words, camera } = stage;
  const take = (what: string, on = page) => camera.take(on, `${called}-${what}`);
  await page.goto(stage.address(`/groups/${groupId}`));
  await press(page, words.say("groups.start"));
  await page.getByRole("dialog").waitFor();
  await page.waitForTimeout(500);
  await take("start-sheet");
  await press(page, words.like("roll.absentNamed"));
  await take("start-sheet-one-absent");
  await press(page, words.say("soundCheck.start"));
  await page.waitForURL(/\/session\//);
  await page.locator(".adult").waitFor();
  await take("adult-before-cue");
  const session = new URL(page.url()).pathname;
  await page.getByText(words.say("adult.names"), { exact: true }).click();
  await camera.part(`${called} class screen`, () => classScreen(stage, called));
  await camera.part(`${called} adult's view`, () => adultsView(stage, called));
  await camera.part(`${called} own windows`, () => boardAndTiles(stage, called));
  await camera.part(`${called} end`, () => theEnd(stage, called, session));
}

async function openClass({ page, words, windows, camera }: Stage, called: string): Promise<Page> {
  const before = windows().length;
  await press(page, words.say("classScreen.open"));
  await page.getByRole("dialog").waitFor();
  await camera.take(page, `${called}-class-screen-before`);
  const dialog = page.getByRole("dialog");
  const own = dialog.getByRole("button", { name: words.say("classScreen.ownWindow") });
  const isBrowser = (await own.count()) > 0;
  await (isBrowser
    ? own
    : dialog.getByRole("button", { name: words.say("classScreen.open") })
  ).click();
  return waitFor(() => (windows().length > before ? windows().at(-1) : null), "the class screen");
}

/** The screen that the class looks at: before a cue, asked, answered in part, at a break, and the way out. */
async function classScreen(stage: Stage, called: string): Promise<void> {
  const { page, words, camera } = stage;
  const screen = await openClass(stage, called);
  await screen.locator(".tile").first().waitFor();
  await camera.take(screen, `${called}-class-screen-quiet`);
  await screen.locator(".tile-asked").first().waitFor({ timeout: aCueMs });
  await screen.waitForTimeout(tileRestsMs);
  await camera.take(screen, `${called}-class-screen-asked`);
  for (const place of [0, 1, 2]) {
    const tile = screen.locator(".tile-asked").nth(0);
    if (place === 2) await tile.locator(".tile-small-away").click();
    else await tile.locator(".tile-answer").nth(place).click();
    await screen.waitForTimeout(300);
  }
  await camera.take(screen, `${called}-class-screen-answered`);
  await press(page, words.say("strip.pause"));
  await screen.waitForTimeout(500);
  await camera.take(screen, `${called}-class-screen-paused`);
  await camera.take(page, `${called}-adult-paused`);
  const purses = screen.getByRole("button", { name: words.say("purse.open") });
  if ((await purses.count()) > 0 && (await purses.isVisible())) {
    await purses.click();
    await screen.waitForTimeout(500);
    await camera.take(screen, `${called}-class-screen-purses`);
    await screen
      .locator(".student-face")
      .first()
      .click()
      .catch(() => undefined);
    await screen.waitForTimeout(500);
    await camera.take(screen, `${called}-class-screen-purse`);
    const done = screen.getByRole("button", { name: words.say("purse.done") });
    if (await done.isVisible()) await done.click();
  }
  await screen.keyboard.press("Control+Alt+Shift+L");
  const pad = screen.getByRole("alertdialog");
  await pad.waitFor();
  await camera.take(screen, `${called}-code-pad`);
  for (const digit of "1234") {
    await pad.getByRole("button", { name: digit, exact: true }).click();
  }
  await pad.getByRole("button", { name: words.say("classScreen.leave") }).click();
  await screen.waitForTimeout(500);
  await camera.take(screen, `${called}-code-pad-wrong`);
  await pad.getByRole("button", { name: words.say("classScreen.stay") }).click();
  await press(page, words.say("strip.resume"));
}

/** The adult's own view: names, a cue that is open, a check, an interruption, points. */
async function adultsView(stage: Stage, called: string): Promise<void> {
  const { page, words, camera } = stage;
  const take = (what: string) => camera.take(page, `${called}-${what}`);
  // The moment of a fresh cue, so that the check stays open for all four pictures.
  await page.locator(".tile-recorded").first().waitFor({ state: "detached" });
  await page.locator(".spot-row").first().waitFor({ timeout: aCueMs });
  await take("adult-check-open");
  await page.locator(".spot-row button:enabled").first().click();
  await page.waitForTimeout(300);
  await take("adult-check-noted");
  await press(page, words.say("adult.interruption.visitor"));
  await page.waitForTimeout(400);
  await take("adult-interruption-noted");
  // It paused the session as well.
  await press(page, words.say("strip.resume"));
  await page
    .locator(".strip")
    .getByRole("button", { name: words.say("adult.interruption") })
    .click();
  await page.waitForTimeout(500);
  await take("strip-interruption");
  await page.keyboard.press("Escape");
  await press(page, words.say("adult.note"));
  await take("adult-note");
  await press(page, words.say("adult.note"));
  const give = page.getByRole("button", { name: words.say("points.give") });
  if ((await give.count()) > 0) {
    await give.click();
    await page.waitForTimeout(500);
    await take("strip-points");
    await page.keyboard.press("Escape");
  }
  await press(page, words.say("spot.free"));
  await page.waitForTimeout(400);
  await take("strip-check-someone");
  await page.keyboard.press("Escape");
}

/** The board and the tiles in the adult's own window, and the board in a window of its own. */
async function boardAndTiles(stage: Stage, called: string): Promise<void> {
  const { page, words, camera, windows } = stage;
  const before = windows().length;
  await press(page, words.say("session.openBoard"));
  const board = await waitFor(
    () => (windows().length > before ? windows().at(-1) : null),
    "the board",
  );
  await board.locator(".board").first().waitFor();
  await camera.take(board, `${called}-board`);
  await press(page, words.say("session.show.tiles"));
  await page.locator(".tile").first().waitFor();
  // The README shows this one.
  await camera.take(page, `${called}-tiles-beside`, called === "eight" ? "session" : null);
  const look = page.getByRole("button", { name: words.say("spot.look") });
  await look.waitFor({ timeout: aCueMs });
  await page.waitForTimeout(500);
  await look.click();
  await page.waitForTimeout(500);
  await camera.take(page, `${called}-tiles-beside-check-open`);
  await press(page, words.say("session.show.board"));
  await page.waitForTimeout(400);
  await camera.take(page, `${called}-board-beside`);
  await press(page, words.say("session.show.strip"));
}

async function theEnd(stage: Stage, called: string, session: string): Promise<void> {
  const { page, words, camera } = stage;
  const take = (what: string) => camera.take(page, `${called}-${what}`);
  await page
    .locator(".strip")
    .getByRole("button", { name: words.say("strip.end"), exact: true })
    .click();
  await page.getByRole("dialog").or(page.getByRole("alertdialog")).waitFor();
  await take("end-asked");
  await press(page, words.say("strip.endNow"));
  await page.waitForTimeout(800);
  await take("ended");
  const results = page.getByRole("button", { name: words.say("end.showResults") });
  if (await results.isVisible()) {
    await results.click();
    await page.waitForTimeout(600);
    await take("summary");
  }
  for (const screen of stage.windows()) {
    const path = new URL(screen.url()).pathname;
    if (screen !== page && path !== session) {
      await camera.take(screen, `${called}-${path === "/board" ? "board" : "class-screen"}-ended`);
      await screen.close();
    }
  }
  await page.goto(stage.address(`${session}/cards`));
  await page.locator("[role=grid]").waitFor();
  await take("cards");
  await page.goto(stage.address(`${session}/quick-totals`));
  await page.locator("main h1").waitFor();
  await page.waitForTimeout(500);
  await take("quick-totals");
}

/** Has the way out of the class screen ask for a code. */
export async function setCode({ page, words, address }: Stage): Promise<void> {
  await page.goto(address("/settings"));
  await page.getByLabel(words.say("classScreen.codeField")).fill(code);
  await press(page, words.say("classScreen.codeSet"));
  await page.getByText(words.say("classScreen.hasCode")).waitFor();
}
