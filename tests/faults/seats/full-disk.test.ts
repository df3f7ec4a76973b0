import { afterEach, expect, it, vi } from "vitest";
import { systemClock } from "../../../electron/services/base/clock.ts";
import * as openDatabase from "../../../electron/store/file/open-database.ts";
import type { KeptMark } from "../../../shared/seats/message.ts";
import { type Device, openRoom, type Room, showNext, until } from "./room.ts";

vi.mock(import("../../../electron/store/file/open-database.ts"), { spy: true });

let room: Room | null = null;
afterEach(async () => {
  await room?.close();
  room = null;
});

const marksKept = ({ heard }: Device): KeptMark[] =>
  heard.flatMap((told) => (told.kind === "kept" ? told.marks : []));

it("answers on a full disk are never called recorded, are kept once there is room, and none is doubled", async () => {
  // A cue comes every twelve seconds.
  const open = await openRoom({ clock: systemClock(5), students: ["Fern", "Robin"] });
  room = open;
  const bare = vi.mocked(openDatabase.openDatabase).mock.results.at(-1)?.value;
  const one = await open.join(1);
  const { id } = await open.start();
  const { session, cue } = await showNext(one);

  /** Says an answer; true once it is called recorded, false when nothing is said of it, also on a busy machine. */
  async function answers(value: "on" | "off"): Promise<boolean> {
    const before = marksKept(one).length;
    one.send({ kind: "mark", session, cue, value });
    const told = until(() => marksKept(one).length > before, "a confirmation", 5_000);
    return told.catch(() => false);
  }

  bare.pragma(`max_page_count = ${bare.pragma("page_count", { simple: true })}`);
  // What is changed again and again fills what is left of the last pages.
  const values: ("on" | "off")[] = [];
  let isFull = false;
  while (!isFull && values.length < 400) {
    const value = values.length % 2 === 0 ? "on" : "off";
    isFull = !(await answers(value));
    if (!isFull) values.push(value);
    await new Promise((resolve) => setTimeout(resolve, 40));
  }
  expect(isFull).toBe(true);
  const last = values.length % 2 === 0 ? "on" : "off";
  // Said again with each beat of the page; the line stays, and nothing is refused.
  expect(await answers(last)).toBe(false);
  expect(one.isClosed()).toBe(false);
  expect(one.heard.some(({ kind }) => kind === "unkept")).toBe(false);
  bare.pragma("max_page_count = 1000000");
  expect(await answers(last)).toBe(true);
  expect(await answers(last)).toBe(true);

  expect(marksKept(one).map(({ value }) => value)).toEqual([...values, last, last]);
  const log = await open.logOf(id);
  room = null;
  const marks = log.flatMap((body) => (body.kind === "mark" ? [body.value] : []));
  expect(marks).toEqual([...values, last]);
}, 90_000);
