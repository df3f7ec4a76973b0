/** Runs in a page: has what it sends with a word in it go out so much later, in ms, as on a busy machine. */
export function delayCalls({ word, ms }: { readonly word: string; readonly ms: number }): void {
  const { send } = WebSocket.prototype;
  WebSocket.prototype.send = function (data) {
    if (typeof data === "string" && data.includes(word))
      setTimeout(() => send.call(this, data), ms);
    else send.call(this, data);
  };
}
