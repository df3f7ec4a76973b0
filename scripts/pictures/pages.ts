import type { Page } from "playwright";
import type { Stage } from "./live.ts";

interface Made {
  /** The student who has a contract, in the invented class. */
  readonly contractedId?: string;
  readonly groupId: string;
  readonly planId: string;
  readonly studentIds: readonly string[];
}

/** Brings a page to its address and waits until it says something and computes nothing any more. */
async function show({ page, address }: Stage, path: string, ready = "main h1"): Promise<void> {
  await page.goto(address(path));
  await page.locator(ready).first().waitFor();
  await page.waitForTimeout(700);
}

/** One picture of each address. */
async function each(
  stage: Stage,
  called: string,
  paths: Readonly<Record<string, string | readonly [path: string, ready: string]>>,
): Promise<void> {
  for (const [name, asked] of Object.entries(paths)) {
    if (!stage.camera.wants(`${called}-${name}`)) continue;
    const [path, ready] = typeof asked === "string" ? [asked] : asked;
    await stage.camera.part(`${called} ${name}`, async () => {
      await show(stage, path, ready);
      // The README shows these two.
      const isReadme = called === "sample" && (name === "today" || name === "progress");
      await stage.camera.take(stage.page, `${called}-${name}`, isReadme ? name : null);
    });
  }
}

const pathsOf = ({ groupId, planId, studentIds: [studentId = ""] }: Made) =>
  ({
    today: ["/", ".today-group"],
    groups: "/groups",
    group: [`/groups/${groupId}`, ".groups-student"],
    room: `/groups/${groupId}/room`,
    plan: [`/groups/${groupId}/plans/${planId}`, ".plan-happens-cues"],
    progress: [`/progress/${groupId}`, ".chart"],
    student: [`/progress/${groupId}/${studentId}`, ".chart"],
    "how-sure": [`/progress/how-sure/${groupId}`, "table"],
    points: `/groups/${groupId}/points`,
    teams: `/groups/${groupId}/teams`,
    pairs: `/groups/${groupId}/pairs`,
    seats: `/groups/${groupId}/seats`,
    held: `/groups/${groupId}/held`,
    observe: `/groups/${groupId}/observe`,
    practice: `/groups/${groupId}/practice`,
    transfer: `/groups/${groupId}/transfer`,
    "home-cards": `/groups/${groupId}/home-cards`,
    agreed: `/groups/${groupId}/students/${studentId}/agreed`,
    "home-card": `/groups/${groupId}/students/${studentId}/home-card`,
    contract: `/groups/${groupId}/students/${studentId}/contract`,
    own: [`/own/${groupId}/${studentId}`, ".own-sessions"],
    "all-progress": "/progress",
    settings: "/settings",
    "not-found": ["/nowhere", "main"],
    board: ["/board", ".board"],
  }) as const;

/** Every page of the app with the invented class, and what opens over them. */
export async function routeRound(stage: Stage, made: Made): Promise<void> {
  const { page, camera, words } = stage;
  await each(stage, "sample", {
    ...pathsOf(made),
    "contract-kept": `/groups/${made.groupId}/students/${made.contractedId}/contract`,
    "home-card-kept": `/groups/${made.groupId}/students/${made.contractedId}/home-card`,
  });
  const over = (name: string, path: string, open: () => Promise<unknown>) =>
    camera.wants(`sample-${name}`)
      ? camera.part(`sample ${name}`, async () => {
          await show(stage, path);
          await open();
          await page.waitForTimeout(600);
          await camera.take(page, `sample-${name}`);
        })
      : Promise.resolve();
  const press = (id: string) =>
    page
      .getByRole("button", { name: words.like(id) })
      .first()
      .click();
  const { groupId, planId } = made;
  await over("help", "/", () => press("help.open"));
  await over("student-change", `/groups/${groupId}`, async () => {
    await press("groups.moreNamed");
    await page.getByRole("menuitem").first().click();
  });
  await over("student-menu", `/groups/${groupId}`, () => press("groups.moreNamed"));
  await over("plan-more", `/groups/${groupId}/plans/${planId}`, async () => {
    await page.locator(".plan-happens-cues").waitFor();
    for (const more of await page.locator("main details:not([open]) > summary").all()) {
      if (await more.isVisible()) await more.click();
    }
  });
  await over("progress-opened", `/progress/${groupId}`, () => openAll(page));
  await over("student-opened", `/progress/${groupId}/${made.studentIds[1]}`, () => openAll(page));
  await over("new-privilege", `/groups/${groupId}/points`, () => press("points.newPrivilege"));
  await over("end-points", `/groups/${groupId}/points`, () => openAll(page));
  await over("teams-swap", `/groups/${groupId}/teams`, () => press("teams.swap"));
  await over("held-seed", `/groups/${groupId}/held`, async () => {
    await page.getByRole("textbox", { name: words.say("seed.seed") }).fill("heron");
    await page.getByRole("checkbox").first().waitFor();
  });
  await over("paste", `/groups/${groupId}`, () =>
    page
      .getByLabel(words.say("groups.addStudents"))
      .fill("Last\tFirst\tID\nGarcía\tJosé\t10023\nPine\tOtter\t10024\nPine\tOtter\t10025"),
  );
}

/** Opens all that is folded away on a page. */
async function openAll(page: Page): Promise<void> {
  await page.waitForTimeout(800);
  for (const more of await page.locator("main details:not([open]) > summary").all()) {
    if (await more.isVisible()) await more.click();
  }
}

/** Every sheet that a classroom prints, as it stands on the screen. */
export async function paperRound(stage: Stage, made: Made): Promise<void> {
  const { groupId, planId, studentIds } = made;
  const [studentId = ""] = studentIds;
  await each(stage, "print", {
    cards: [`/print/cards/${groupId}/${planId}`, ".sheet"],
    "cue-key": [`/print/cue-key/${planId}`, ".sheet"],
    observation: [`/print/observation/${groupId}/${planId}`, ".sheet"],
    pairs: [`/print/pairs/${groupId}`, "h1"],
    agreed: [`/print/agreed/${groupId}/${studentId}`, ".sheet"],
    teams: [`/print/teams/${groupId}`, ".sheet"],
    contract: [`/print/contract/${groupId}/${made.contractedId}`, ".sheet"],
    "home-cards": [`/print/home-cards/${groupId}`, "h1"],
    "home-week": [`/print/home-week/${groupId}`, "h1"],
    prices: [`/print/prices/${groupId}`, ".sheet"],
    slips: [`/print/slips/${groupId}`, ".sheet"],
    seats: [`/print/seats/${groupId}`, "h1"],
    "seat-sheets": [`/print/seats/${groupId}/sheets`, "h1"],
    report: [`/print/report/${groupId}/${studentId}`, ".sheet"],
    "first-week": ["/print/first-week", ".sheet"],
    own: [`/print/own/${groupId}`, ".sheet"],
    family: [`/print/family/${groupId}`, ".sheet"],
  });
}

/** The pages that say something else with nothing, little, much or many in the app. */
export async function stateRound(stage: Stage, called: string, made: Made | undefined) {
  if (made === undefined) {
    await each(stage, called, {
      today: "/",
      groups: "/groups",
      "all-progress": "/progress",
      settings: "/settings",
      board: ["/board", ".board"],
    });
    return;
  }
  const paths = pathsOf(made);
  const hasPlan = made.planId !== "";
  const hasStudents = made.studentIds.length > 0;
  await each(stage, called, {
    today: ["/", ".today-group"],
    group: paths.group[0],
    progress: paths.progress[0],
    teams: paths.teams,
    pairs: paths.pairs,
    held: paths.held,
    observe: paths.observe,
    points: paths.points,
    "home-cards": paths["home-cards"],
    transfer: paths.transfer,
    ...(hasStudents
      ? { student: paths.student[0], own: paths.own[0], "how-sure": paths["how-sure"][0] }
      : {}),
    ...(hasPlan ? { plan: paths.plan[0] } : {}),
    room: paths.room,
  });
  const { page, camera, words } = stage;
  // A class that has not heard the chime yet is asked about it.
  if (called !== "firstDay" || !camera.wants("sound-check")) return;
  await camera.part("sound check", async () => {
    await show(stage, `/groups/${made.groupId}`);
    await page.getByRole("button", { name: words.say("groups.start") }).click();
    await page.getByRole("dialog").waitFor();
    await page.waitForTimeout(500);
    await camera.take(page, "sound-check");
    await page.getByRole("button", { name: words.say("soundCheck.hear") }).click();
    await page.getByText(words.say("soundCheck.reaches")).waitFor();
    await camera.take(page, "sound-check-heard");
    await page.getByRole("button", { name: words.say("soundCheck.start") }).click();
    await page.waitForURL(/\/session\//);
    await page
      .locator(".strip")
      .getByRole("button", { name: words.say("strip.end"), exact: true })
      .click();
    await page.getByRole("button", { name: words.say("strip.endNow") }).click();
    await page.waitForTimeout(800);
    await camera.take(page, "ended-without-cue-shared");
    const results = page.getByRole("button", { name: words.say("end.showResults") });
    if (await results.isVisible()) await results.click();
    await page.waitForTimeout(500);
    await camera.take(page, "ended-without-cue");
  });
}
