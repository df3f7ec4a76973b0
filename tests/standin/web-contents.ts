import { EventEmitter } from "node:events";
import { existsSync, readFileSync } from "node:fs";
import type { DevtoolsSession, Protocol } from "./cdp.ts";
import { ipcMain } from "./ipc-main.ts";
import { MessagePortStandIn } from "./message-port.ts";
import { applyPermissions } from "./permissions.ts";
import { pageScript, preloadScript } from "./preload-world.ts";
import { appsAddress, schemeOf, shownAddress, stage } from "./stage.ts";
import { codec, makeCodec, type ToMain, type ToWorld } from "./wire.ts";

type ContentsSurface = Pick<
  Electron.WebContents,
  | "id"
  | "loadURL"
  | "reload"
  | "getURL"
  | "getTitle"
  | "isDestroyed"
  | "isCrashed"
  | "send"
  | "postMessage"
  | "print"
  | "printToPDF"
  | "executeJavaScript"
  | "forcefullyCrashRenderer"
>;
type FrameSurface = Pick<
  Electron.WebFrameMain,
  "url" | "frameTreeNodeId" | "postMessage" | "send" | "isDestroyed" | "detached"
>;
type OpenHandler = Parameters<Electron.WebContents["setWindowOpenHandler"]>[0];
type Print = Parameters<Electron.WebContents["print"]>;

const paperInches: Readonly<Record<string, readonly [width: number, height: number]>> = {
  A4: [8.27, 11.69],
  Letter: [8.5, 11],
};
let lastId = 0;
let lastPort = 0;

/** The page of a window: a real Chromium page, driven over DevTools. */
export class WebContentsStandIn extends EventEmitter implements ContentsSurface {
  readonly id = ++lastId;
  readonly mainFrame: FrameStandIn;
  readonly #page: Promise<DevtoolsSession>;
  readonly #ports = new Map<number, MessagePortStandIn>();
  #targetId = "";
  #frameId = "";
  #world: number | null = null;
  #url = "";
  #title = "";
  #destroyed = false;
  #crashed = false;
  #ownLoad: string | null = null;
  #requested = new Set<string>();
  #openHandler: OpenHandler | null = null;
  #loaded = Promise.withResolvers<void>();

  /** @param size of the page in CSS pixels */
  constructor(preload: string | undefined, size: { width: number; height: number }) {
    super();
    this.mainFrame = new FrameStandIn(this);
    this.#page = this.#open(preload, size);
    this.#page.catch((error: unknown) =>
      console.error("The stand-in could not open a page:", error),
    );
  }

  async #open(preload: string | undefined, size: { width: number; height: number }) {
    const { devtools } = await stage.browser.promise;
    const attached = Promise.withResolvers<string>();
    const waiting = new Map<string, string>();
    devtools.browser.on("Target.attachedToTarget", ({ sessionId, targetInfo }) => {
      if (targetInfo.targetId === this.#targetId) attached.resolve(sessionId);
      else waiting.set(targetInfo.targetId, sessionId);
      const { openerId, type } = targetInfo;
      const isPopup = openerId !== undefined && openerId === this.#targetId;
      if (isPopup)
        void devtools.browser.send("Target.closeTarget", { targetId: targetInfo.targetId });
      // A page that opens another waits for it to run, if only to be closed.
      if (isPopup || type !== "page") {
        void devtools
          .session(sessionId)
          .send("Runtime.runIfWaitingForDebugger")
          .catch(() => undefined);
      }
    });
    devtools.browser.on("Target.detachedFromTarget", ({ targetId }) => {
      if (targetId === this.#targetId) this.#gone();
    });
    const { targetId } = await devtools.browser.send("Target.createTarget", {
      url: "about:blank",
      newWindow: true,
      ...size,
    });
    this.#targetId = targetId;
    const early = waiting.get(targetId);
    if (early !== undefined) attached.resolve(early);
    const page = devtools.session(await attached.promise);
    await this.#prepare(page, preload);
    await page.send("Runtime.runIfWaitingForDebugger");
    return page;
  }

  async #prepare(page: DevtoolsSession, preload: string | undefined): Promise<void> {
    page.on("Page.frameNavigated", ({ frame }) => {
      if (frame.parentId !== undefined) return;
      this.#frameId = frame.id;
      this.#url = appsAddress(frame.url);
      this.#crashed = false;
      this.emit("did-navigate", {}, this.#url, 200, "OK");
    });
    page.on("Page.navigatedWithinDocument", ({ frameId, url }) => {
      if (frameId === this.#frameId) this.#url = appsAddress(url);
    });
    page.on("Page.domContentEventFired", () => this.emit("dom-ready", {}));
    page.on("Page.loadEventFired", () => {
      this.emit("ready-to-show");
      this.emit("did-finish-load", {});
      this.#loaded.resolve();
    });
    page.on("Page.frameRequestedNavigation", ({ frameId, url }) => {
      if (frameId !== this.#frameId) return;
      // Schemes that no network request is made for show up only here.
      if (/^https?:/.test(url)) this.#requested.add(url);
      else this.#mayNavigate(url, true);
    });
    page.on("Page.windowOpen", ({ url, windowName, windowFeatures }) =>
      this.#openWindow(url, windowName, windowFeatures.join(",")),
    );
    page.on("Runtime.executionContextCreated", ({ context }) => {
      if (context.name === stage.worldName && context.auxData?.frameId === this.#frameId) {
        this.#world = context.id;
      }
    });
    page.on("Runtime.executionContextDestroyed", ({ executionContextId }) => {
      if (executionContextId === this.#world) this.#leaveWorld();
    });
    page.on("Runtime.executionContextsCleared", () => this.#leaveWorld());
    page.on("Runtime.bindingCalled", ({ name, payload, executionContextId }) => {
      if (name !== stage.binding || executionContextId !== this.#world) return;
      this.#hear(JSON.parse(payload));
    });
    page.on("Inspector.targetCrashed", () => {
      this.#crashed = true;
      this.#leaveWorld();
      this.emit("render-process-gone", {}, { reason: "crashed", exitCode: 1 });
    });
    page.on(
      "Fetch.requestPaused",
      (paused) => void this.#route(page, paused).catch(() => undefined),
    );

    const { frameTree } = await page.send("Page.getFrameTree");
    this.#frameId = frameTree.frame.id;
    const source =
      preload !== undefined && existsSync(preload) ? readFileSync(preload, "utf8") : "";
    if (source === "")
      this.emit("preload-error", {}, preload, new Error("The preload is missing."));
    const world = { bridge: stage.bridge, binding: stage.binding, platform: process.platform };
    await Promise.all([
      page.send("Page.enable"),
      page.send("Runtime.addBinding", {
        name: stage.binding,
        executionContextName: stage.worldName,
      }),
      page.send("Page.addScriptToEvaluateOnNewDocument", {
        source: pageScript(stage.bridge, String(makeCodec)),
      }),
      page.send("Page.addScriptToEvaluateOnNewDocument", {
        source: preloadScript(world, String(makeCodec), source),
        worldName: stage.worldName,
      }),
      page.send("Runtime.enable"),
      page.send("Inspector.enable"),
      page.send("Fetch.enable", { patterns: [{ urlPattern: "*", requestStage: "Request" }] }),
    ]);
  }

  async loadURL(address: string): Promise<void> {
    const page = await this.#page;
    const shown = shownAddress(address);
    await applyPermissions(shown);
    this.#ownLoad = shown;
    this.#loaded = Promise.withResolvers();
    const { errorText } = await page.send("Page.navigate", { url: shown });
    if (errorText !== undefined) throw new Error(`${errorText} loading ${address}`);
    await this.#loaded.promise;
  }

  reload(): void {
    void this.#page.then((page) => {
      if (this.#crashed) return page.send("Page.navigate", { url: shownAddress(this.#url) });
      return page.send("Page.reload");
    });
  }

  getURL(): string {
    return this.#url;
  }

  getTitle(): string {
    return this.#title;
  }

  isDestroyed(): boolean {
    return this.#destroyed;
  }

  isCrashed(): boolean {
    return this.#crashed;
  }

  setWindowOpenHandler(handler: OpenHandler): void {
    this.#openHandler = handler;
  }

  send(channel: string, ...values: unknown[]): void {
    this.#tell({ kind: "event", channel, values: codec.encode(values), ports: [] });
  }

  postMessage(
    channel: string,
    message: unknown,
    transfer: readonly Electron.MessagePortMain[] = [],
  ): void {
    const ports = transfer.map((port: unknown) => {
      if (!(port instanceof MessagePortStandIn)) throw new Error("Only ports can be handed over.");
      return this.#adopt(port);
    });
    this.#tell({ kind: "event", channel, values: codec.encode([message]), ports });
  }

  /** There is no printer here. */
  print(_options?: Print[0], callback?: Print[1]): void {
    setImmediate(() => callback?.(false, "Invalid deviceName provided"));
  }

  async printToPDF(options: Electron.PrintToPDFOptions): Promise<Buffer> {
    const size = options.pageSize ?? "Letter";
    const inches = typeof size === "string" ? paperInches[size] : [size.width, size.height];
    if (inches === undefined) throw new Error(`The stand-in has no ${String(size)} paper.`);
    const [paperWidth = 0, paperHeight = 0] = inches;
    const page = await this.#page;
    const { data } = await page.send("Page.printToPDF", {
      paperWidth,
      paperHeight,
      landscape: options.landscape ?? false,
      printBackground: options.printBackground ?? false,
      preferCSSPageSize: options.preferCSSPageSize ?? false,
      generateTaggedPDF: options.generateTaggedPDF ?? false,
    });
    return Buffer.from(data, "base64");
  }

  async executeJavaScript(code: string, userGesture = false): Promise<unknown> {
    const page = await this.#page;
    const { result, exceptionDetails } = await page.send("Runtime.evaluate", {
      expression: code,
      userGesture,
      awaitPromise: true,
      returnByValue: true,
    });
    if (exceptionDetails !== undefined) throw new Error(exceptionDetails.text);
    return result.value;
  }

  forcefullyCrashRenderer(): void {
    void this.#page.then((page) => page.send("Page.crash")).catch(() => undefined);
  }

  /** For the window: resizes the page. */
  async setSize(width: number, height: number): Promise<void> {
    await this.#page;
    const { devtools } = await stage.browser.promise;
    const { windowId } = await devtools.browser.send("Browser.getWindowForTarget", {
      targetId: this.#targetId,
    });
    await devtools.browser.send("Browser.setWindowBounds", { windowId, bounds: { width, height } });
  }

  async bringToFront(): Promise<void> {
    await (await this.#page).send("Page.bringToFront");
  }

  /** For the window: closes the page. */
  async destroy(): Promise<void> {
    await this.#page;
    this.#gone();
    const { devtools } = await stage.browser.promise;
    await devtools.browser.send("Target.closeTarget", { targetId: this.#targetId });
  }

  #gone(): void {
    if (this.#destroyed) return;
    this.#destroyed = true;
    this.#leaveWorld();
    this.emit("destroyed");
  }

  #hear(message: ToMain): void {
    const event = { sender: this, senderFrame: this.mainFrame, frameId: 1, processId: this.id };
    switch (message.kind) {
      case "send":
        ipcMain.emit(message.channel, event, ...(codec.decode(message.values) as unknown[]));
        return;
      case "invoke": {
        const world = this.#world;
        void ipcMain
          .answer(message.channel, event, codec.decode(message.values) as unknown[])
          .then(
            (value): ToWorld => ({ kind: "answer", id: message.id, value: codec.encode(value) }),
            (error: unknown): ToWorld => ({
              kind: "failure",
              id: message.id,
              message: `Error invoking remote method '${message.channel}': ${String(error)}`,
            }),
          )
          .then((answer) => {
            // An answer to a page that has gone is for nobody.
            if (this.#world === world) this.#tell(answer);
          });
        return;
      }
      case "port-message":
        this.#ports.get(message.port)?.deliver(codec.decode(message.value));
        return;
      case "port-close":
        this.#ports.get(message.port)?.disconnect();
        this.#ports.delete(message.port);
        return;
      case "title":
        this.#title = message.title;
        this.emit("page-title-updated", {}, message.title, true);
        return;
      case "preload-error":
        console.error("The preload failed:", message.message);
        this.emit("preload-error", {}, "", new Error(message.message));
    }
  }

  #adopt(port: MessagePortStandIn): number {
    const id = ++lastPort;
    const here = port.handOver({
      deliver: (value) =>
        this.#tell({ kind: "port-message", port: id, value: codec.encode(value) }),
      disconnect: () => {
        this.#ports.delete(id);
        this.#tell({ kind: "port-close", port: id });
      },
    });
    this.#ports.set(id, here);
    return id;
  }

  #tell(message: ToWorld): void {
    const world = this.#world;
    if (world === null) return;
    void this.#page
      .then((page) =>
        page.send("Runtime.callFunctionOn", {
          functionDeclaration: `(text) => ${stage.binding}_receive(text)`,
          arguments: [{ value: JSON.stringify(message) }],
          executionContextId: world,
          silent: true,
        }),
      )
      .catch(() => undefined);
  }

  /** The document has gone, and with it every port it held. */
  #leaveWorld(): void {
    this.#world = null;
    for (const port of this.#ports.values()) port.disconnect();
    this.#ports.clear();
  }

  async #route(page: DevtoolsSession, paused: Protocol.Events["Fetch.requestPaused"]) {
    const { requestId, request, resourceType, frameId, redirectedRequestId } = paused;
    if (resourceType === "Document") {
      const isMain = frameId === this.#frameId;
      const isOwn = isMain && request.url === this.#ownLoad;
      this.#ownLoad = isOwn ? null : this.#ownLoad;
      const asked = this.#requested.delete(request.url) || !isOwn;
      const allowed =
        redirectedRequestId !== undefined
          ? this.#ask("will-redirect", request.url, isMain)
          : !asked || this.#mayNavigate(request.url, isMain);
      if (!allowed) {
        await page.send("Fetch.failRequest", { requestId, errorReason: "Aborted" });
        return;
      }
    }
    const scheme = schemeOf(request.url);
    const handler = scheme === null ? undefined : stage.schemes.get(scheme);
    if (handler === undefined) {
      await page.send("Fetch.continueRequest", { requestId });
      return;
    }
    const response = await handler(
      new Request(appsAddress(request.url), {
        method: request.method,
        headers: new Headers(request.headers as unknown as Record<string, string>),
        ...(request.postData === undefined ? {} : { body: request.postData }),
      }),
    );
    const body = Buffer.from(await response.arrayBuffer());
    await page.send("Fetch.fulfillRequest", {
      requestId,
      responseCode: response.status,
      responseHeaders: [...response.headers].map(([name, value]) => ({ name, value })),
      body: body.toString("base64"),
    });
  }

  /** Asks the app, by Electron's events, whether a navigation that the page wants may happen. */
  #mayNavigate(address: string, isMain: boolean): boolean {
    const inFrame = this.#ask("will-frame-navigate", address, isMain);
    return inFrame && (!isMain || this.#ask("will-navigate", address, isMain));
  }

  #ask(
    name: "will-navigate" | "will-frame-navigate" | "will-redirect",
    address: string,
    isMain: boolean,
  ) {
    let prevented = false;
    this.emit(name, {
      url: appsAddress(address),
      isMainFrame: isMain,
      isSameDocument: false,
      frame: isMain ? this.mainFrame : null,
      preventDefault: () => {
        prevented = true;
      },
    });
    return !prevented;
  }

  #openWindow(url: string, frameName: string, features: string): void {
    const answer = this.#openHandler?.({
      url: appsAddress(url),
      frameName,
      features,
      disposition: "new-window",
      referrer: { url: this.#url, policy: "strict-origin-when-cross-origin" },
    });
    // The page it opened is closed before it runs, as soon as the browser attaches to it.
    if (answer?.action !== "deny") throw new Error("The stand-in opens no windows for pages.");
  }
}

/** The main frame of a window's page. */
export class FrameStandIn implements FrameSurface {
  readonly parent = null;
  readonly #contents: WebContentsStandIn;

  constructor(contents: WebContentsStandIn) {
    this.#contents = contents;
  }

  get url(): string {
    return this.#contents.getURL();
  }

  get frameTreeNodeId(): number {
    return this.#contents.id;
  }

  get detached(): boolean {
    return this.#contents.isDestroyed();
  }

  isDestroyed(): boolean {
    return this.#contents.isDestroyed();
  }

  send(channel: string, ...values: unknown[]): void {
    this.#contents.send(channel, ...values);
  }

  postMessage(channel: string, message: unknown, transfer?: Electron.MessagePortMain[]): void {
    this.#contents.postMessage(channel, message, transfer);
  }
}
