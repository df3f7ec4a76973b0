import { describe, expect, it } from "vitest";
import { Missing } from "../../../../../electron/services/base/refusal.ts";
import type { Rating } from "../../../../../shared/home/home-card.ts";
import type { HomeCard } from "../../../../../shared/home/kept-card.ts";
import { caller } from "../services.ts";
import { desktopClass, refused } from "./rig.ts";

const card: HomeCard = {
  goals: ["Begin", "Ask"],
  periods: ["Reading"],
  scale: { kind: "scale", goodEnd: "five", weights: [0, 5, 10, 15, 20] },
  homework: true,
  selfRecord: true,
};
const day = "2026-03-02";

async function withCard() {
  const here = await desktopClass();
  const version = await here.homeCards.saveVersion(
    { studentId: here.pine, fromDay: day, card },
    caller,
  );
  const typed = (ratings: (Rating | null)[], on = day, cardId = version.id) => ({
    cardId,
    day: on,
    ratings,
    homework: "",
    wentWell: "",
    tomorrow: "",
  });
  const save = (ratings: (Rating | null)[], on?: string, cardId?: string) =>
    here.homeCards.saveDays(
      { days: [{ studentId: here.pine, typed: typed(ratings, on, cardId) }] },
      caller,
    );
  const ofDay = (on = day) => here.homeCards.ofDay({ groupId: here.groupId, day: on }, caller);
  return { ...here, version, typed, save, ofDay };
}

describe("home cards", () => {
  it("come for those who have one, from their first day on, and keep what was typed last", async () => {
    const here = await withCard();
    expect(await here.ofDay("2026-03-01")).toEqual([]);
    expect(await here.ofDay()).toMatchObject([{ studentId: here.pine, typed: null }]);
    expect(await here.save([4, null])).toEqual({ written: 1 });
    expect(await here.save([4, null])).toEqual({ written: 0 });
    await here.save([4, 1]);
    expect((await here.ofDay())[0]?.typed?.ratings).toEqual([4, 1]);
    // Nothing typed of a day is nothing to keep; a card that is cleared again is none.
    expect(await here.save([null, null], "2026-03-03")).toEqual({ written: 0 });
    await here.save([null, null]);
    const [week] = await here.homeCards.span(
      { groupId: here.groupId, from: day, to: "2026-03-08" },
      caller,
    );
    expect(week?.cards).toEqual([]);
  });

  it("are not saved over where another window has made a newer one since", async () => {
    const here = await withCard();
    const save = (after: string | null, goals: string[]) =>
      here.homeCards.saveVersion(
        { studentId: here.pine, fromDay: day, card: { ...card, goals }, after },
        caller,
      );
    expect(await refused(() => save(null, ["Tidy"]))).toBe("saved-elsewhere");
    here.clock.advance(1_000);
    const next = await save(here.version.id, ["Tidy"]);
    expect(await refused(() => save(here.version.id, ["Ask"]))).toBe("saved-elsewhere");
    const versions = await here.homeCards.versions({ studentId: here.pine }, caller);
    expect(versions.map(({ id }) => id)).toEqual([here.version.id, next.id]);
  });

  it("that came back stay with the version that was printed", async () => {
    const here = await withCard();
    await here.save([4, 3]);
    here.clock.advance(1_000);
    const other = { ...card, goals: ["Begin"], scale: { ...card.scale, goodEnd: "one" as const } };
    const later = await here.homeCards.saveVersion(
      { studentId: here.pine, fromDay: day, card: other },
      caller,
    );
    expect(await here.ofDay()).toMatchObject([{ version: { id: here.version.id } }]);
    expect(await here.ofDay("2026-03-03")).toMatchObject([{ version: { id: later.id } }]);
    expect(await refused(() => here.save([4, 3], "2026-03-03", later.id))).toBe("home-card-misfit");
  });

  it("keep what two windows type at once, each from what it first had", async () => {
    const here = await withCard();
    const began = here.typed([null, null]);
    const type = (typed: typeof began) =>
      here.homeCards.saveDays({ days: [{ studentId: here.pine, typed, began }] }, caller);
    await type({ ...began, ratings: [4, null], wentWell: "Began at once" });
    expect(await type({ ...began, ratings: [null, 1] })).toEqual({ written: 1 });
    expect((await here.ofDay())[0]?.typed).toMatchObject({
      ratings: [4, 1],
      wentWell: "Began at once",
    });
  });

  it("stop without a trace: nothing to print, nothing to type, no page for the week", async () => {
    const here = await withCard();
    await here.save([4, 3]);
    await here.agreed.savePaper({ studentId: here.pine, cardStopped: true }, caller);
    expect(await here.ofDay()).toEqual([]);
    const span = { groupId: here.groupId, from: day, to: day };
    expect(await here.homeCards.span(span, caller)).toEqual([]);
    await here.agreed.savePaper({ studentId: here.pine, cardStopped: false }, caller);
    expect(await here.ofDay()).toHaveLength(1);
    await here.say(here.pine, "home-card", "no");
    expect(await here.ofDay()).toEqual([]);
  });

  it("of a yes-no version take yes and no alone, and nobody else's version", async () => {
    const here = await withCard();
    here.clock.advance(1_000);
    const yesNo = { ...card, scale: { ...card.scale, kind: "yes-no" as const } };
    const version = await here.homeCards.saveVersion(
      { studentId: here.pine, fromDay: "2026-03-03", card: yesNo },
      caller,
    );
    expect(await refused(() => here.save([4, 2], "2026-03-03", version.id))).toBe(
      "home-card-misfit",
    );
    await here.save([4, 0], "2026-03-03", version.id);
    const typed = here.typed([4, 0], "2026-03-03", version.id);
    await expect(async () =>
      here.homeCards.saveDays({ days: [{ studentId: here.otter, typed }] }, caller),
    ).rejects.toThrow(Missing);
  });

  it("tell a family the student's own record where the card says so", async () => {
    const here = await withCard();
    const session = await here.start();
    here.clock.advance(600_000);
    await here.sessions.end({ sessionId: session.id }, caller);
    await here.records.saveCards(
      {
        sessionId: session.id,
        cards: [{ studentId: here.pine, card: { kind: "totals", on: 3, off: 1 } }],
      },
      caller,
    );
    await here.save([4, 3]);
    const span = { groupId: here.groupId, from: day, to: "2026-03-08" };
    const [week] = await here.homeCards.span(span, caller);
    expect(week).toMatchObject({ selfRecord: { on: 3, off: 1 }, cards: [{ typed: { day } }] });
    // A move within the week takes nothing of it away.
    const { id: groupId } = await here.groups.create({ name: "Room 5", target: "" }, caller);
    await here.students.move({ id: here.pine, groupId }, caller);
    const [moved] = await here.homeCards.span({ ...span, groupId }, caller);
    expect(moved).toMatchObject({ selfRecord: { on: 3, off: 1 }, cards: [{ typed: { day } }] });
  });
});
