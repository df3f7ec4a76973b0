import { afterEach, describe, expect, it } from "vitest";
import { closeCodes } from "../../electron/host/carrier.ts";
import type { Handlers } from "../../electron/services/base/handlers.ts";
import { longestMessageBytes } from "../../shared/api/procedures.ts";
import { type LineCarried, overPort, overSocket, type RawLine, until } from "./support/carriers.ts";
import { createGroup, event, group, handlersWith, sessionId } from "./support/fake-handlers.ts";

const carriers: readonly (readonly [string, (handlers: Handlers) => Promise<LineCarried>])[] = [
  ["a port", overPort],
  ["a socket", overSocket],
];

/** A call as our own client writes it. */
function call(id: string, procedure: string, json: unknown, meta?: unknown): string {
  return JSON.stringify({ i: id, p: { u: `/${procedure}`, b: { json, meta } } });
}

const create = (id: string, name = "Maple") => call(id, "groups/create", { name, target: "" });

describe.each(carriers)("whatever is said on %s", (name, carry) => {
  let carried: LineCarried | null = null;
  const serve = async (handlers: Handlers) => {
    carried = await carry(handlers);
    return carried;
  };
  afterEach(async () => {
    await carried?.close();
    carried = null;
  });

  /** The line was closed for this reason, and the desktop side goes on serving others. */
  async function closedFor(line: RawLine, code: number, { link }: LineCarried): Promise<void> {
    expect(await line.closed).toBe(name === "a port" ? null : code);
    expect(await link.api.groups.create({ name: "Maple", target: "" })).toEqual(group("Maple"));
  }

  it.each([
    ["no JSON", "hello"],
    ["half a message", '{"i":"1","p":{"u":"/groups/create"'],
    ["null", "null"],
    ["a list", "[1,2,3]"],
    ["no call in it", '{"i":"1"}'],
    ["no id", '{"p":{"u":"/groups/create","b":{}}}'],
    ["an id that is no text", '{"i":{"a":1},"p":{"u":"/groups/create"}}'],
    ["an endless id", `{"i":"${"1".repeat(1_000)}","p":{"u":"/groups/create"}}`],
    ["another site's address", '{"i":"1","p":{"u":"http://elsewhere.example/groups/create"}}'],
    ["an address with back-steps", '{"i":"1","p":{"u":"/groups/../create"}}'],
    ["headers", '{"i":"1","p":{"u":"/groups/create","h":{"content-type":"multipart/form-data"}}}'],
    ["another method", '{"i":"1","p":{"u":"/groups/create?data=1","m":"GET"}}'],
    ["a stream of its own", '{"i":"1","t":3,"p":{"e":"message","d":1}}'],
    ["an unknown kind", '{"i":"1","t":9}'],
  ])("closes a line that sends %s", async (_, text) => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send(text);
    await closedFor(line, closeCodes.notUnderstood, served);
    expect(line.texts).toEqual([]);
  });

  it("closes a line that sends bytes", async () => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send(new TextEncoder().encode(create("1")));
    await closedFor(line, closeCodes.notText, served);
  });

  it("closes a line that sends more than the longest message", async () => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send(create("1", "x".repeat(longestMessageBytes)));
    await closedFor(line, closeCodes.tooLong, served);
  });

  it("measures messages in bytes, not in letters", async () => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send(create("1", "€".repeat(longestMessageBytes / 2)));
    await closedFor(line, closeCodes.tooLong, served);
  });

  it("answers an unknown procedure as not found", async () => {
    const served = await serve(handlersWith({}));
    const line = await served.raw();
    const names = ["groups/destroy", "nothing", "__proto__/toString", "constructor", "groups"];
    names.forEach((procedure, index) => {
      line.send(call(String(index), procedure, {}));
    });
    await until(() => line.texts.length === names.length, "all were answered");
    for (const text of line.texts) expect(JSON.parse(text).p.s).toBe(404);
  });

  it.each([
    ["a date", [1, "name"]],
    ["a regular expression", [5, "name"]],
    ["a set", [6, "name"]],
    ["an unknown type", [77, "name"]],
  ])("closes a line that sends %s, which no procedure takes", async (_, type) => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send(call("1", "groups/create", { name: "/(/", target: "" }, [type]));
    await closedFor(line, closeCodes.notUnderstood, served);
  });

  it.each([
    ["a place that is not there", [3, "nowhere"]],
    ["a way into prototypes", [3, "__proto__", "polluted"]],
    ["something else in its place", [3, "name"]],
  ])("answers `undefined` at %s as bad input", async (_, type) => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send(call("1", "groups/create", { name: "Maple", target: "" }, [type]));
    await until(() => line.texts.length === 1, "it was answered");
    expect(JSON.parse(line.texts[0] ?? "").p.s).toBe(400);
    expect(Object.keys(Object.prototype)).toEqual([]);
    line.send(create("2"));
    await until(() => line.texts.length === 2, "the line goes on");
  });

  // Known in the library before 1.13.7: a second call under the same id replaced the first.
  it("runs a call once when its id is sent again while it runs", async () => {
    let asked = 0;
    let finish: () => void = () => undefined;
    const slow: Handlers["groups"]["create"] = ({ name: wanted }) => {
      asked += 1;
      return new Promise((resolve) => {
        finish = () => resolve(group(wanted));
      });
    };
    const served = await serve(handlersWith({ groups: { create: slow } }));
    const line = await served.raw();
    line.send(create("7", "first"));
    line.send(create("7", "second"));
    line.send(create("7", "third"));
    await until(() => asked > 0, "the call arrived");
    await new Promise((resolve) => setTimeout(resolve, 30));
    finish();
    await until(() => line.texts.length > 0, "it was answered");
    expect(asked).toBe(1);
    expect(line.texts).toHaveLength(1);
    expect(JSON.parse(line.texts[0] ?? "").p.b.json.name).toBe("first");
  });

  it("takes no notice of taking back what is not there", async () => {
    const served = await serve(handlersWith({ groups: { create: createGroup } }));
    const line = await served.raw();
    line.send('{"i":"99","t":4}');
    line.send(create("1"));
    await until(() => line.texts.length === 1, "the next call was answered");
  });

  it("closes a line with more calls than any page has", async () => {
    const create: Handlers["groups"]["create"] = async ({ name: wanted }) => {
      if (wanted === "slow") await new Promise(() => undefined);
      return group(wanted);
    };
    const served = await serve(handlersWith({ groups: { create } }));
    const line = await served.raw();
    for (let index = 0; index < 600; index += 1) {
      line.send(call(String(index), "groups/create", { name: "slow", target: "" }));
    }
    await closedFor(line, closeCodes.tooManyCalls, served);
  });

  it("holds a stream up while its page does not read, and goes on when it does", async () => {
    let made = 0;
    async function* watch() {
      for (;;) {
        made += 1;
        yield event(made);
      }
    }
    const served = await serve(
      handlersWith({ sessions: { watch }, groups: { create: createGroup } }),
    );
    const line = await served.raw();
    line.stopReading();
    line.send(call("1", "sessions/watch", { sessionId, after: 0 }));
    let before = -1;
    while (made > before) {
      before = made;
      await new Promise((resolve) => setTimeout(resolve, 250));
    }
    // About 1,150 bytes an item; a socket's own buffers in the system may take some megabytes.
    expect(made).toBeLessThan(name === "a port" ? 400 : 20_000);
    const heldUp = made;
    // Others are served meanwhile.
    expect(await served.link.api.groups.create({ name: "Maple", target: "" })).toEqual(
      group("Maple"),
    );
    line.readOn();
    await until(() => made > heldUp + 100, "the stream went on");
    line.close();
    await new Promise((resolve) => setTimeout(resolve, 100));
    const left = made;
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(made).toBe(left);
  });
});
