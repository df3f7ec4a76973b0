import type { IpcMain } from "electron";
import { describe, expect, it, vi } from "vitest";
import { z } from "zod";
import { openGate } from "../../../../electron/shell/gate.ts";
import { limitPermissions, mayUse } from "../../../../electron/shell/permissions.ts";

type Handler = (event: unknown, ...sent: unknown[]) => Promise<{ kind: string; message?: string }>;

/** A gate on one channel, and a way to send to it as some frame of some window. */
function gate(reply: () => unknown) {
  let handler: Handler | undefined;
  const ipcMain = {
    handle: (_channel: string, given: Handler) => {
      handler = given;
    },
  };
  // The gate only registers handlers.
  const answer = openGate(ipcMain as unknown as IpcMain, (id) => id === 1);
  answer("ask", z.strictObject({ name: z.string().max(5) }), reply);
  return (from: { id?: number; url?: string; parent?: object | null }, ...sent: unknown[]) => {
    const { id = 1, url = "pebblechime://app/", parent = null } = from;
    return handler?.({ sender: { id }, senderFrame: { url, parent } }, ...sent);
  };
}

describe("the gate", () => {
  it("lets a top frame of our window with a page of the app through", async () => {
    const send = gate(() => ({ kind: "done" }));
    expect(await send({}, { name: "ok" })).toEqual({ kind: "done" });
  });

  it("runs nothing for other windows, inner frames and foreign pages", async () => {
    const reply = vi.fn();
    const send = gate(reply);
    for (const from of [
      { id: 2 },
      { parent: {} },
      { url: "https://app/" },
      { url: "about:blank" },
    ]) {
      expect((await send(from, { name: "ok" }))?.kind).toBe("failed");
    }
    expect(reply).not.toHaveBeenCalled();
  });

  it("runs nothing for what it does not know, and answers with a sentence", async () => {
    const reply = vi.fn();
    const send = gate(reply);
    for (const sent of [
      [],
      [null],
      [{ name: "too long" }],
      [{ name: "ok", more: 1 }],
      [{ name: "ok" }, 2],
    ]) {
      expect((await send({}, ...sent))?.message).toMatch(/\.$/);
    }
    expect(reply).not.toHaveBeenCalled();
  });

  it("turns a failure into an answer and keeps its message out of the log", async () => {
    const log = vi.spyOn(console, "error").mockImplementation(() => undefined);
    const send = gate(() => {
      throw new RangeError("a child's name");
    });
    expect((await send({}, { name: "ok" }))?.kind).toBe("failed");
    expect(log.mock.calls.flat().join(" ")).toBe("ask failed: RangeError");
    log.mockRestore();
  });
});

describe("permissions", () => {
  it("are refused except for the loudspeaker and filling the display, and only to the app", () => {
    expect(mayUse("speaker-selection", "pebblechime://app/")).toBe(true);
    expect(mayUse("fullscreen", "pebblechime://app/board")).toBe(true);
    expect(mayUse("speaker-selection", "https://example.org/")).toBe(false);
    for (const permission of [
      "media",
      "geolocation",
      "notifications",
      "openExternal",
      "unknown",
    ] as const) {
      expect(mayUse(permission, "pebblechime://app/"), permission).toBe(false);
    }
  });

  it("are decided in every handler that Electron offers", () => {
    const answers: unknown[] = [];
    const session = {
      setPermissionRequestHandler: (handle: (...given: unknown[]) => void) =>
        handle(null, "media", (granted: boolean) => answers.push(granted), {
          requestingUrl: "pebblechime://app/",
        }),
      setPermissionCheckHandler: (handle: (...given: unknown[]) => unknown) =>
        answers.push(handle(null, "geolocation", "pebblechime://app/", {})),
      setDevicePermissionHandler: (handle: () => unknown) => answers.push(handle()),
    };
    // Only these three are used.
    limitPermissions(session as unknown as Parameters<typeof limitPermissions>[0]);
    expect(answers).toEqual([false, false, false]);
  });
});
