/** Runs in a page: has what it sends with a word in it go out so much later, in ms, as on a busy machine. */
export function delayCalls({ word, ms }: { readonly word: string; readonly ms: number }): void {
  const { send } = WebSocket.prototype;
  WebSocket.prototype.send = function (data) {
    if (typeof data === "string" && data.includes(word))
      setTimeout(() => send.call(this, data), ms);
    else send.call(this, data);
  };
}

/** Runs in a page: the answers to calls with a word in them arrive so much later, in ms; all else in time. */
export function delayAnswers({ word, ms }: { readonly word: string; readonly ms: number }): void {
  const asked = new Set<string>();
  const numberOf = (text: unknown) => /^\{"i":"([^"]+)"/.exec(String(text))?.[1] ?? "";
  const { send, addEventListener } = WebSocket.prototype;
  WebSocket.prototype.send = function (data) {
    if (typeof data === "string" && data.includes(word)) asked.add(numberOf(data));
    send.call(this, data);
  };
  WebSocket.prototype.addEventListener = function (
    this: WebSocket,
    kind: string,
    listener: EventListenerOrEventListenerObject,
    options?: boolean | AddEventListenerOptions,
  ) {
    const told = (event: Event) => {
      const tell = () =>
        typeof listener === "function" ? listener.call(this, event) : listener.handleEvent(event);
      const isLate = event instanceof MessageEvent && asked.has(numberOf(event.data));
      if (isLate) setTimeout(tell, ms);
      else tell();
    };
    addEventListener.call(this, kind, kind === "message" ? told : listener, options);
  };
}
