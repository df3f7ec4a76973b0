import { request } from "node:http";
import { type AddressInfo, connect as connectTcp } from "node:net";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { WebSocket, WebSocketServer } from "ws";
import { invitationMs, openGate, proof } from "../../electron/loopback/gate.ts";
import { type LoopbackHost, openLoopback } from "../../electron/loopback/host.ts";
import { proofText, type Ticket } from "../../shared/api/entry.ts";
import { isUnreachable, linkOver } from "../../src/api/client.ts";
import { enter, NotLetIn } from "../../src/api/enter.ts";
import { entryLine, impatient, invitationIn } from "./support/carriers.ts";
import { handlersWith } from "./support/fake-handlers.ts";

interface Answer {
  readonly status: number;
  readonly headers: Readonly<Record<string, string | string[] | undefined>>;
  readonly body: string;
}

let host: LoopbackHost;

beforeEach(async () => {
  host = await openLoopback({
    handlers: handlersWith({ sessions: { open: () => null } }),
    appFolder: join(import.meta.dirname, "support", "page"),
  });
});
afterEach(() => host.close());

/** Asks with exactly these headers and this path, which fetch would tidy up. */
function ask(
  path: string,
  headers: Readonly<Record<string, string>> = {},
  method = "GET",
): Promise<Answer> {
  const address = { host: "127.0.0.1", port: host.port, path, headers, method };
  return new Promise((resolve, reject) => {
    const asking = request(address, (answer) => {
      let body = "";
      answer.setEncoding("utf8");
      answer.on("data", (part) => {
        body += part;
      });
      answer.on("end", () =>
        resolve({ status: answer.statusCode ?? 0, headers: answer.headers, body }),
      );
    });
    asking.on("error", reject);
    asking.end();
  });
}

/** The HTTP status with which a socket is turned away, or 101. */
function upgrade(headers: Readonly<Record<string, string>>, path = "/api"): Promise<number> {
  const socket = new WebSocket(`ws://127.0.0.1:${host.port}${path}`, { headers });
  return new Promise((resolve) => {
    socket.on("open", () => {
      socket.terminate();
      resolve(101);
    });
    socket.on("unexpected-response", (_, { statusCode = 0 }) => {
      resolve(statusCode);
    });
    socket.on("error", () => undefined);
  });
}

/** Knocks as our page does, with a ticket; the ticket to keep afterwards. */
async function comeIn(ticket: Ticket): Promise<Ticket> {
  const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
  socket.on("error", () => undefined);
  try {
    return await enter(entryLine(socket), ticket);
  } finally {
    socket.terminate();
  }
}

/** Comes in and stays, as a page does. */
async function stay(ticket: Ticket) {
  const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
  socket.on("error", () => undefined);
  const isClosed = new Promise((resolve) => socket.on("close", resolve));
  const kept = await enter(entryLine(socket), ticket);
  return {
    kept,
    /** Says anything at all; what is no call has the host close the line. */
    speak: async () => {
      socket.send("a word");
      await isClosed;
    },
    leave: async () => {
      socket.terminate();
      await isClosed;
    },
  };
}

const reasonOf = (coming: Promise<unknown>) =>
  coming.then(
    () => "let in",
    (error: unknown) => (error instanceof NotLetIn ? error.reason : String(error)),
  );

/** What the host answers to texts said one after the other on a fresh socket, until it closes. */
async function saying(...texts: string[]): Promise<{ answers: unknown[]; code: number }> {
  const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
  const answers: unknown[] = [];
  socket.on("open", () => {
    for (const text of texts) socket.send(text);
  });
  socket.on("message", (data) => answers.push(JSON.parse(data.toString())));
  const code = await new Promise<number>((resolve) => socket.on("close", resolve));
  return { answers, code };
}

describe("getting in", () => {
  it("keeps the secret where no browser sends it: behind the address's #", () => {
    const { search, hash } = new URL(host.invite());
    expect(search).toBe("");
    expect(hash).toMatch(/^#key=/);
  });

  it("exchanges an invitation for a ticket that goes on opening", async () => {
    const invitation = invitationIn(host.invite());
    const ticket = await comeIn(invitation);
    expect(ticket.id).not.toBe(invitation.id);
    expect(ticket.secret).not.toBe(invitation.secret);
    // A reload, a lost line: the same ticket again, and it stays the same.
    expect(await comeIn(ticket)).toEqual(ticket);
    expect(await comeIn(ticket)).toEqual(ticket);
  });

  it("sets no cookie: browsers send those to every port of this machine", async () => {
    for (const path of ["/", "/progress", "/nothing.js", "/api"]) {
      expect((await ask(path)).headers["set-cookie"], path).toBeUndefined();
    }
  });

  it("gives a secret of at least 128 bits, different each time", () => {
    const [one, two] = [host.invite(), host.invite()].map((each) => invitationIn(each).secret);
    expect(one).not.toBe(two);
    expect(Buffer.from(one ?? "", "base64url").length * 8).toBeGreaterThanOrEqual(128);
  });

  it("takes an invitation once", async () => {
    const address = host.invite();
    expect(host.isSpent(address)).toBe(false);
    const page = await stay(invitationIn(address));
    expect(host.isSpent(address)).toBe(true);
    expect(await reasonOf(comeIn(invitationIn(address)))).toBe("unknown");
    await page.speak();
    expect(host.isSpent(address)).toBe(true);
    expect(await reasonOf(comeIn(invitationIn(address)))).toBe("unknown");
  });

  it("takes it again from a page that was loaded anew before it had its ticket", async () => {
    const address = host.invite();
    const first = await stay(invitationIn(address));
    await first.leave();
    await expect.poll(() => host.isSpent(address)).toBe(false);
    const second = await stay(invitationIn(address));
    // The ticket that nobody had opens nothing.
    expect(await reasonOf(comeIn(first.kept))).toBe("unknown");
    await second.speak();
    expect(await reasonOf(comeIn(invitationIn(address)))).toBe("unknown");
    expect(await reasonOf(comeIn(second.kept))).toBe("let in");
  });

  it("takes the ticket of a page that was loaded anew when it just had it, and then no invitation", async () => {
    const address = host.invite();
    const first = await stay(invitationIn(address));
    await first.leave();
    await expect.poll(() => host.isSpent(address)).toBe(false);
    expect(await reasonOf(comeIn(first.kept))).toBe("let in");
    expect(host.isSpent(address)).toBe(true);
    expect(await reasonOf(comeIn(invitationIn(address)))).toBe("unknown");
  });

  it("lets in one of two pages that use an invitation at once", async () => {
    const invitation = invitationIn(host.invite());
    const both = await Promise.all([1, 2].map(() => reasonOf(stay(invitation))));
    expect(both.toSorted()).toEqual(["let in", "unknown"]);
  });

  // A link preview or a virus scanner visits addresses without running them.
  it.each(["GET", "HEAD"])("spends no invitation on a mere visit by %s", async (method) => {
    const address = host.invite();
    const { pathname, search } = new URL(address);
    expect((await ask(pathname + search, {}, method)).status).toBe(200);
    expect((await ask(`${pathname}?key=${invitationIn(address).id}`, {}, method)).status).toBe(200);
    expect(host.isSpent(address)).toBe(false);
    await comeIn(invitationIn(address));
  });

  it("takes no invitation after ten minutes", async () => {
    expect(invitationMs).toBe(600_000);
    let nowMs = 0;
    const gate = openGate(host.port, () => nowMs);
    const [early, late] = [gate.invite(), gate.invite()].map((each) => invitationIn(each).id);
    nowMs = invitationMs - 1;
    expect(gate.admit(early ?? "")).not.toBeNull();
    nowMs = invitationMs;
    expect(gate.admit(late ?? "")).toBeNull();
  });

  it("keeps no more than a few unspent invitations", async () => {
    const first = invitationIn(host.invite());
    for (let count = 0; count < 20; count += 1) host.invite();
    expect(await reasonOf(comeIn(first))).toBe("unknown");
  });

  it("gives its files to anybody on this machine: they hold nothing of anybody's", async () => {
    for (const path of ["/", "/index.html", "/assets/one-abc123.js", "/progress"]) {
      expect((await ask(path)).status, path).toBe(200);
    }
  });
});

describe("who proves what", () => {
  const hello = (ticket: string) => JSON.stringify({ ticket, nonce: "nonce-of-a-page" });

  it("answers nothing but that it knows no such ticket", async () => {
    for (const text of [hello("made-up-ticket"), "hello", "null", "[]", '{"ticket":7}']) {
      expect(await saying(text), text).toEqual({ answers: [{ unknown: true }], code: 4401 });
    }
  });

  it("proves itself first, with a nonce of its own, and tells its secret to nobody", async () => {
    const { id, secret } = await comeIn(invitationIn(host.invite()));
    const { answers, code } = await saying(hello(id), JSON.stringify({ proof: "0".repeat(64) }));
    const [first, last] = answers as { proof: string; nonce: string }[];
    const text = proofText("host", id, "nonce-of-a-page", first?.nonce ?? "");
    expect(first?.proof).toBe(proof(secret, text));
    expect([last, code]).toEqual([{ unknown: true }, 4401]);
    expect(JSON.stringify(answers)).not.toContain(secret);
  });

  it("does not take its own proof for the page's", async () => {
    const { id } = await comeIn(invitationIn(host.invite()));
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
    socket.on("open", () => socket.send(hello(id)));
    const answers: string[] = [];
    socket.on("message", (data) => {
      answers.push(data.toString());
      if (answers.length === 1) {
        socket.send(JSON.stringify({ proof: JSON.parse(answers[0] ?? "").proof }));
      }
    });
    await new Promise((resolve) => socket.on("close", resolve));
    expect(JSON.parse(answers[1] ?? "")).toEqual({ unknown: true });
  });

  it("serves no call before the page has proved itself", async () => {
    const call = JSON.stringify({ i: "1", p: { u: "/sessions/open" } });
    expect(await saying(call)).toEqual({ answers: [{ unknown: true }], code: 4401 });
    const { id } = await comeIn(invitationIn(host.invite()));
    expect((await saying(hello(id), call)).answers.at(-1)).toEqual({ unknown: true });
  });

  it("is not kept busy by sockets that say nothing: our own page still comes in", async () => {
    const silent = Array.from({ length: 60 }, () => {
      const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, { origin: host.origin });
      socket.on("error", () => undefined);
      return socket;
    });
    await Promise.all(silent.map((each) => new Promise((resolve) => each.on("open", resolve))));
    expect(await reasonOf(comeIn(invitationIn(host.invite())))).toBe("let in");
    for (const each of silent) each.terminate();
  });
});

describe("a page whose host's port was taken by another program", () => {
  /** Another program, which answers a socket as it likes; what the page said to it. */
  async function strangerAt(answer: (text: string) => string) {
    const heard: string[] = [];
    const stranger = new WebSocketServer({ host: "127.0.0.1", port: 0 });
    await new Promise((resolve) => stranger.on("listening", resolve));
    stranger.on("connection", (socket) =>
      socket.on("message", (data) => {
        heard.push(data.toString());
        socket.send(answer(data.toString()));
      }),
    );
    // The server listens, so it has an address of this kind.
    const { port } = stranger.address() as AddressInfo;
    return { heard, address: `ws://127.0.0.1:${port}/api`, close: () => stranger.close() };
  }

  it.each([
    ["a made-up proof", () => JSON.stringify({ proof: "0".repeat(64), nonce: "made-up-nonce" })],
    ["what the page said", (text: string) => text],
    ["a welcome at once", () => JSON.stringify({ scope: "teacher" })],
    ["an answer of the API", () => JSON.stringify({ i: "1", p: { b: {} } })],
  ])("stops for good at %s, having said neither its secret nor a call", async (_, answer) => {
    const ticket = await comeIn(invitationIn(host.invite()));
    const stranger = await strangerAt(answer);
    const link = linkOver(async () => {
      const line = entryLine(new WebSocket(stranger.address));
      await enter(line, ticket);
      return line;
    }, impatient);
    const made = link.api.groups.create({ name: "Typed Name", target: "" }).catch((e) => e);
    expect(isUnreachable(await made)).toBe(true);
    expect(link.state()).toBe("barred");
    expect(link.barredFor()).toBe("stranger");
    await new Promise((resolve) => setTimeout(resolve, 100));
    expect(stranger.heard).toHaveLength(1);
    expect(stranger.heard.join()).not.toContain(ticket.secret);
    expect(stranger.heard.join()).not.toContain("Typed");
    link.close();
    stranger.close();
  });
});

describe("who may ask", () => {
  it.each([
    "evil.example",
    "localhost",
    "127.0.0.1",
    "127.0.0.1:1",
    "127.0.0.1.evil.example:PORT",
    "[::1]:PORT",
    "127.0.0.1:PORT@evil.example",
  ])("turns away a request for the host %s (DNS rebinding)", async (named) => {
    const wrong = named.replace("PORT", String(host.port));
    expect([400, 403]).toContain((await ask("/", { host: wrong })).status);
    expect(await upgrade({ host: wrong, origin: `http://${wrong}` })).toBe(403);
    expect(await upgrade({ host: wrong, origin: host.origin })).toBe(403);
  });

  it.each([
    "http://evil.example",
    "null",
    "http://localhost:PORT",
    "https://127.0.0.1:PORT",
    "http://127.0.0.1:PORT.evil.example",
    "http://127.0.0.1",
  ])("turns away the origin %s (cross-site)", async (named) => {
    const origin = named.replace("PORT", String(host.port));
    expect((await ask("/", { origin })).status).toBe(403);
    expect(await upgrade({ origin })).toBe(403);
  });

  it("opens a socket for our page only: right host, right origin, place", async () => {
    const { origin } = host;
    expect(await upgrade({ origin })).toBe(101);
    expect(await upgrade({})).toBe(403);
    expect(await upgrade({ origin }, "/")).toBe(404);
    expect(await upgrade({ origin }, "//evil.example/api")).toBe(404);
  });

  it("hears nobody but this machine", async () => {
    const outside = Object.values(networkInterfaces())
      .flatMap((addresses) => addresses ?? [])
      .filter(({ internal, family }) => !internal && family === "IPv4");
    for (const { address } of [...outside, { address: "127.0.0.2" }]) {
      const reached = await new Promise<boolean>((resolve) => {
        const socket = connectTcp({ host: address, port: host.port, timeout: 1_000 });
        socket.on("connect", () => resolve(true));
        socket.on("error", () => resolve(false));
        socket.on("timeout", () => resolve(false));
      });
      expect(reached, address).toBe(false);
    }
  });

  it("lets a second start join with the first one's secret only", async () => {
    expect((await ask("/join", {}, "POST")).status).toBe(403);
    expect((await ask("/join", { authorization: "Bearer guess" }, "POST")).status).toBe(403);
    const authorization = `Bearer ${host.joinSecret}`;
    const evil = { authorization, origin: "http://evil.example" };
    expect((await ask("/join", evil, "POST")).status).toBe(403);
    const joined = await ask("/join", { authorization }, "POST");
    expect(joined.status).toBe(200);
    await (await stay(invitationIn(joined.body))).speak();
    // And tells it whether the page that it opened has come.
    const answer = await fetch(new URL("/joined", host.origin), {
      method: "POST",
      headers: { authorization },
      body: joined.body,
    });
    expect(await answer.text()).toBe("yes");
    expect((await ask("/joined", {}, "POST")).status).toBe(403);
  });
});

describe("what is given out", () => {
  it.each([
    "/../fake-handlers.ts",
    "/..%2ffake-handlers.ts",
    "/%2e%2e/fake-handlers.ts",
    "/assets/../../carriers.ts",
    "/assets/..%5c..%5ccarriers.ts",
    "/..\\carriers.ts",
    "//etc/passwd",
    "/etc/passwd.json",
    "/%00/index.html",
    "/index.html%00.js",
    "/%",
    "/secret.env",
    "/.env",
    "/assets/.hidden.js",
    "/C:/windows/win.ini.json",
    "/nothing.js",
  ])("does not give out %s", async (path) => {
    const { status, body } = await ask(path, {});
    // A path without an ending is a screen, so it may get the page; never the file it names.
    if (status === 200) expect(body).toContain("<title>page</title>");
    else expect([400, 404]).toContain(status);
    expect(body).not.toContain("import");
    expect(body).not.toContain("root:");
    expect(body).not.toContain("secret");
  });

  it("gives the page for each screen, and files with their kinds", async () => {
    for (const path of ["/", "/board", "/groups/7/plan"]) {
      expect(await ask(path, {})).toMatchObject({
        status: 200,
        headers: { "content-type": "text/html; charset=utf-8", "cache-control": "no-cache" },
      });
    }
    expect(await ask("/assets/one-abc123.js", {})).toMatchObject({
      status: 200,
      body: "export const one = 1;\n",
      headers: { "content-type": "text/javascript; charset=utf-8" },
    });
    expect((await ask("/", {}, "HEAD")).body).toBe("");
  });

  it("sends the content policy and its companions with every answer", async () => {
    const answers = [
      await ask("/", {}),
      await ask("/assets/one-abc123.js", {}),
      await ask("/nothing.js", {}),
      await ask("/"),
      await ask("/", { host: "evil.example" }),
      await ask("/?key=spent"),
      await ask("/", {}, "POST"),
      await ask("/join", {}, "POST"),
      await ask("/api", {}),
      await ask("/..\\back", {}),
      await ask("/", { host: "no host@all" }),
    ];
    for (const { headers } of answers) {
      const policy = String(headers["content-security-policy"]);
      expect(policy).toContain("default-src 'none'");
      expect(policy).toContain("frame-ancestors 'none'");
      expect(policy).not.toMatch(/unsafe|data:|\*|https?:/);
      expect(headers["x-content-type-options"]).toBe("nosniff");
      expect(headers["x-frame-options"]).toBe("DENY");
      expect(headers["referrer-policy"]).toBe("no-referrer");
      expect(headers["cross-origin-opener-policy"]).toBe("same-origin");
      expect(headers["access-control-allow-origin"]).toBeUndefined();
    }
  });

  it("changes nothing by any other method", async () => {
    for (const method of ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"]) {
      expect((await ask("/", {}, method)).status).toBe(405);
    }
  });
});

describe("stopping", () => {
  it("ends open sockets and frees the port", async () => {
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, {
      headers: { origin: host.origin },
    });
    await new Promise((resolve) => socket.on("open", resolve));
    const closed = new Promise((resolve) => socket.on("close", resolve));
    const { port } = host;
    await host.close();
    await closed;
    host = await openLoopback({
      handlers: handlersWith({}),
      appFolder: join(import.meta.dirname, "support", "page"),
      port,
    });
    expect(host.port).toBe(port);
  });

  it("tells when the port is taken", async () => {
    const taken = openLoopback({ handlers: handlersWith({}), appFolder: "/", port: host.port });
    await expect(taken).rejects.toMatchObject({ code: "EADDRINUSE" });
  });
});
