import { expect, test } from "vitest";
import type { Handlers } from "../../../../electron/services/base/handlers.ts";
import { Refusal } from "../../../../electron/services/base/refusal.ts";
import { withStoreRefusals } from "../../../../electron/services/base/store-refusals.ts";
import { StoreError } from "../../../../electron/store/file/store-error.ts";
import { temporaryStore } from "../store/temporary-folder.ts";
import { caller, openServices, refusalOf } from "./services.ts";

test("1. settings begin with what most would choose and keep what was chosen", async () => {
  const { app, store } = openServices();
  expect(await app.settings({}, caller)).toEqual({
    language: "en",
    theme: "system",
    soundChecked: false,
    paper: "region",
    seatsInRow: {},
    picturesOnly: [],
    singleKeys: true,
    points: true,
    worryContact: "",
    newsSeen: null,
    reminderSound: false,
    chime: "bell",
    volume: 0.5,
    seats: false,
    pocketNames: false,
  });
  await app.saveSettings({ theme: "contrast" }, caller);
  const seatsInRow = { "0190a000-0000-7000-8000-0000000000aa": 6 };
  const saved = await app.saveSettings({ language: "es", soundChecked: true, seatsInRow }, caller);
  const own = { picturesOnly: Object.keys(seatsInRow), singleKeys: false };
  await app.saveSettings(own, caller);
  const chosen = { language: "es", theme: "contrast", soundChecked: true };
  const sound = {
    seats: false,
    pocketNames: false,
    reminderSound: false,
    chime: "bell",
    volume: 0.5,
  };
  const rest = {
    picturesOnly: [],
    singleKeys: true,
    points: true,
    worryContact: "",
    newsSeen: null,
    ...sound,
  };
  expect(saved).toEqual({ ...chosen, paper: "region", seatsInRow, ...rest });
  const expected = { ...chosen, ...own, ...rest, ...own, paper: "region", seatsInRow };
  const { folder } = store;
  store.close();
  expect(temporaryStore(folder).settings.get()).toEqual(expected);
});

test("2. the app says what it is and where the data is", async () => {
  const { app, store } = openServices();
  expect(await app.info({}, caller)).toEqual({
    version: "1.2.3",
    host: "loopback",
    speed: 1,
    dataFolder: store.folder,
    hasSample: false,
  });
});

/** Handlers of which one subject is real enough to fail. */
function failing(error: unknown): Handlers {
  const { app } = openServices();
  const broken = {
    ...app,
    info: () => {
      throw error;
    },
    settings: async () => {
      throw error;
    },
  };
  // Only `app` is called here.
  return withStoreRefusals({ app: broken } as unknown as Handlers);
}

test("3. a failing disk is a refusal with its own sentence, at once or later", async () => {
  const { app } = failing(new StoreError("full"));
  for (const call of [() => app.info({}, caller), () => app.settings({}, caller)]) {
    const refusal = await refusalOf(call);
    expect(refusal).toMatchObject({ code: "store-failed", values: { problem: "full" } });
    expect(refusal.message).toMatch(/disk is full/);
  }
});

test("4. refusals and mistakes pass through as they are", async () => {
  for (const error of [new Refusal("group-empty", "Empty."), new TypeError("Oops")]) {
    const { app } = failing(error);
    expect(() => app.info({}, caller)).toThrow(error);
    await expect(app.settings({}, caller)).rejects.toBe(error);
  }
});
