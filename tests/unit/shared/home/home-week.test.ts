import { expect, it } from "vitest";
import type { Rating } from "../../../../shared/home/home-card.ts";
import { cardOfDay, homeWeek } from "../../../../shared/home/home-week.ts";
import { type HomeCard, versionOn } from "../../../../shared/home/kept-card.ts";

const card: HomeCard = {
  goals: ["Begin", "Ask"],
  periods: ["Reading", "Sums"],
  scale: { kind: "scale", goodEnd: "five", weights: [0, 5, 10, 15, 20] },
  homework: true,
  selfRecord: false,
};
const typed = (day: string, ratings: (Rating | null)[], wentWell = "") => ({
  card,
  typed: {
    cardId: "0190a000-0000-7000-8000-000000000001",
    day,
    ratings,
    homework: "",
    wentWell,
    tomorrow: "",
  },
});

// Worked by hand from the specification's rule: weights added up, rated cells of all cells.
it("a day's sums: home points of the weights, the share of rated cells alone", () => {
  expect(cardOfDay(typed("2026-03-02", [4, 2, null, 3]))).toMatchObject({
    points: 45,
    share: 9 / 12,
    rated: 3,
    cells: 4,
  });
});

it("a card that was lost, or came back empty, is no card and costs nothing", () => {
  const week = homeWeek([
    typed("2026-03-02", [4, 4, 4, 4]),
    typed("2026-03-03", [null, null, null, null], "Helped a friend"),
  ]);
  expect(week.points).toBe(80);
  expect(week.cards).toBe(1);
  expect(week.days[1]).toMatchObject({ points: null, share: null, wentWell: "Helped a friend" });
});

it("goals are counted each for itself, and only where they were rated", () => {
  const { goals } = homeWeek([
    typed("2026-03-02", [4, 0, 3, null]),
    typed("2026-03-03", [2, 4, null, 4]),
  ]);
  expect(goals).toEqual([
    { goal: "Begin", well: 2, rated: 3 },
    { goal: "Ask", well: 2, rated: 3 },
  ]);
});

it("the version of a day is the newest that began by then, whenever it was made", () => {
  const versions = [
    { fromDay: "2026-03-02", name: "first" },
    { fromDay: "2026-03-09", name: "later" },
    { fromDay: "2026-03-02", name: "corrected" },
  ];
  expect(versionOn(versions, "2026-03-01")).toBeNull();
  expect(versionOn(versions, "2026-03-05")?.name).toBe("corrected");
  expect(versionOn(versions, "2026-03-09")?.name).toBe("later");
});
