import { describe, expect, it } from "vitest";
import { firstPlan } from "../../../../shared/plan/plan.ts";
import { chimeRate } from "../../../../shared/sound/loudness.ts";
import { ownChimeBounds } from "../../../../shared/sound/own-chime.ts";
import { encodeWav } from "../../../../shared/sound/wav.ts";
import { caller, makeGroup, openServices } from "./services.ts";

const wave = (seconds: number, level: number, rate = chimeRate) =>
  encodeWav(
    Float64Array.from({ length: Math.round(seconds * rate) }, (_, at) => level * Math.sin(at / 9)),
    rate,
  );
const base64 = (bytes: Uint8Array) => Buffer.from(bytes).toString("base64");
const bell = { name: "Hand bell", sound: base64(wave(0.5, 0.3)) };

describe("A chime of the teacher's own", () => {
  it("is kept and given back as it came, and says which plans have it", async () => {
    const services = openServices();
    const { chimes, plans } = services;
    const { group } = await makeGroup(services, ["Ash"]);
    const { id } = await chimes.add(bell, caller);
    expect(await chimes.sound({ id }, caller)).toEqual({ sound: bell.sound });
    const settings = { ...firstPlan, chime: `own:${id}` } as const;
    await plans.create({ groupId: group.id, name: "With it", settings }, caller);
    expect(await chimes.list(undefined, caller)).toEqual([{ id, name: "Hand bell", plans: 1 }]);
  });

  it("leaves the bell to its plans and to new ones when it is removed", async () => {
    const services = openServices();
    const { chimes, plans, app } = services;
    const { group } = await makeGroup(services, ["Ash"]);
    const { id } = await chimes.add(bell, caller);
    await app.saveSettings({ chime: `own:${id}` }, caller);
    const settings = { ...firstPlan, chime: `own:${id}` } as const;
    const plan = await plans.create({ groupId: group.id, name: "With it", settings }, caller);
    expect(await chimes.remove({ id }, caller)).toEqual({ plansChanged: 1 });
    const kept = await plans.list({ groupId: group.id }, caller);
    expect(kept.find((each) => each.id === plan.id)?.settings.chime).toBe("bell");
    expect((await app.settings(undefined, caller)).chime).toBe("bell");
    expect(await chimes.sound({ id }, caller)).toEqual({ sound: null });
  });

  it.each([
    ["no sound", new TextEncoder().encode("RIFFnothing at all")],
    ["too long", wave(ownChimeBounds.mostSeconds + 1, 0.1)],
    ["too loud", wave(0.5, 0.9)],
    ["of another rate", wave(0.5, 0.3, 44_100)],
  ] as const)("is refused when its file is %s, whatever the page says", async (_, file) => {
    const { chimes } = openServices();
    await expect(async () =>
      chimes.add({ name: "Odd", sound: base64(file) }, caller),
    ).rejects.toThrow(/cannot be used as a chime/);
  });

  it("is refused beyond the twelfth", async () => {
    const { chimes } = openServices();
    for (let made = 0; made < ownChimeBounds.most; made += 1) await chimes.add(bell, caller);
    await expect(async () => chimes.add(bell, caller)).rejects.toThrow(/Remove one first/);
  });
});
