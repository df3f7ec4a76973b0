import { EventEmitter } from "node:events";
import type { WebContents } from "electron";
import { describe, expect, it } from "vitest";
import { keepInsideApp } from "../../../../electron/shell/navigation.ts";

function setUp() {
  const opened: string[] = [];
  let openHandler: (details: { url: string }) => { action: string } = () => ({ action: "allow" });
  const contents = Object.assign(new EventEmitter(), {
    setWindowOpenHandler: (handler: typeof openHandler) => {
      openHandler = handler;
    },
  });
  // Events and the open handler are all that is used.
  keepInsideApp(contents as unknown as WebContents, (address) => opened.push(address));
  const goes = (name: string, url: string, isMainFrame = true) => {
    let prevented = false;
    contents.emit(name, {
      url,
      isMainFrame,
      preventDefault: () => {
        prevented = true;
      },
    });
    return !prevented;
  };
  return { opened, goes, open: (url: string) => openHandler({ url }).action };
}

describe("keepInsideApp", () => {
  it("lets the page move within the app only", () => {
    const { goes, opened } = setUp();
    expect(goes("will-navigate", "pebblechime://app/groups")).toBe(true);
    expect(goes("will-navigate", "file:///etc/hosts")).toBe(false);
    expect(goes("will-navigate", "https://example.org/")).toBe(false);
    expect(opened).toEqual(["https://example.org/"]);
  });

  it("refuses redirects and inner frames elsewhere, and opens nothing for them", () => {
    const { goes, opened } = setUp();
    expect(goes("will-redirect", "https://example.org/")).toBe(false);
    expect(goes("will-frame-navigate", "https://example.org/", false)).toBe(false);
    expect(goes("will-frame-navigate", "pebblechime://app/", false)).toBe(true);
    expect(goes("will-attach-webview", "")).toBe(false);
    expect(opened).toEqual([]);
  });

  it("never opens a window", () => {
    const { open, opened } = setUp();
    for (const url of ["pebblechime://app/board", "https://example.org/", "file:///x"]) {
      expect(open(url)).toBe("deny");
    }
    expect(opened).toEqual(["https://example.org/"]);
  });
});
