import { request } from "node:http";
import { connect as connectTcp } from "node:net";
import { networkInterfaces } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, describe, expect, it } from "vitest";
import { WebSocket } from "ws";
import { type LoopbackHost, openLoopback } from "../../electron/loopback/host.ts";
import { cookieOf } from "./support/carriers.ts";
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

const pathOf = (address: string) => address.slice(host.origin.length);

describe("getting in", () => {
  it("exchanges the secret for a cookie at once and takes it out of the address", async () => {
    const { status, headers } = await ask(pathOf(host.invite()));
    expect(status).toBe(303);
    expect(headers.location).toBe("/");
    expect(headers["cache-control"]).toBe("no-store");
    expect(headers["referrer-policy"]).toBe("no-referrer");
    const [cookie = ""] = headers["set-cookie"] ?? [];
    expect(cookie).toContain("HttpOnly");
    expect(cookie).toContain("SameSite=Strict");
    expect(cookie).not.toContain("Domain");
    expect(await ask("/", { cookie: cookie.split(";")[0] ?? "" })).toMatchObject({ status: 200 });
  });

  it("gives a secret of at least 128 bits, different each time", () => {
    const [one, two] = [host.invite(), host.invite()].map(
      (address) => new URL(address).searchParams.get("key") ?? "",
    );
    expect(one).not.toBe(two);
    expect(Buffer.from(one ?? "", "base64url").length * 8).toBeGreaterThanOrEqual(128);
  });

  it("takes a secret once", async () => {
    const path = pathOf(host.invite());
    expect((await ask(path)).status).toBe(303);
    const replayed = await ask(path);
    expect(replayed.status).toBe(403);
    expect(replayed.headers["set-cookie"]).toBeUndefined();
    expect(replayed.body).toContain("used already");
  });

  it("lets a page that is in reload its first address", async () => {
    const path = pathOf(host.invite());
    const [cookie = ""] = (await ask(path)).headers["set-cookie"] ?? [];
    expect(await ask(path, { cookie })).toMatchObject({ status: 303, headers: { location: "/" } });
  });

  it.each(["/?key=", "/?key=AAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAAA", "/?key=__proto__"])(
    "does not take a made-up secret: %s",
    async (path) => {
      expect((await ask(path)).status).toBe(403);
    },
  );

  it("keeps no more than a few unspent secrets", async () => {
    const first = pathOf(host.invite());
    for (let count = 0; count < 20; count += 1) host.invite();
    expect((await ask(first)).status).toBe(403);
  });

  it.each(["/", "/index.html", "/assets/one-abc123.js", "/progress"])(
    "gives %s to nobody without the cookie",
    async (path) => {
      const answer = await ask(path);
      expect(answer.status).toBe(403);
      expect(answer.body).not.toContain("<title>");
      expect((await ask(path, { cookie: `pebblechime-${host.port}=guess` })).status).toBe(403);
    },
  );

  it("does not take another port's cookie", async () => {
    const cookie = await cookieOf(host.invite());
    const renamed = cookie.replace(String(host.port), String(host.port + 1));
    expect((await ask("/", { cookie: renamed })).status).toBe(403);
    expect((await ask("/", { cookie: `other=1; ${cookie}` })).status).toBe(200);
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
  ])("turns away a request for the host %s, cookie or not (DNS rebinding)", async (named) => {
    const cookie = await cookieOf(host.invite());
    const wrong = named.replace("PORT", String(host.port));
    expect([400, 403]).toContain((await ask("/", { host: wrong, cookie })).status);
    expect((await ask(pathOf(host.invite()), { host: wrong })).headers["set-cookie"]).toBe(
      undefined,
    );
    expect(await upgrade({ host: wrong, origin: `http://${wrong}`, cookie })).toBe(403);
    expect(await upgrade({ host: wrong, origin: host.origin, cookie })).toBe(403);
  });

  it.each([
    "http://evil.example",
    "null",
    "http://localhost:PORT",
    "https://127.0.0.1:PORT",
    "http://127.0.0.1:PORT.evil.example",
    "http://127.0.0.1",
  ])("turns away the origin %s, cookie or not (cross-site)", async (named) => {
    const cookie = await cookieOf(host.invite());
    const origin = named.replace("PORT", String(host.port));
    expect((await ask("/", { origin, cookie })).status).toBe(403);
    expect(await upgrade({ origin, cookie })).toBe(403);
  });

  it("opens a socket for our page only: right host, right origin, cookie, place", async () => {
    const cookie = await cookieOf(host.invite());
    const { origin } = host;
    expect(await upgrade({ origin, cookie })).toBe(101);
    expect(await upgrade({ cookie })).toBe(403);
    expect(await upgrade({ origin })).toBe(403);
    expect(await upgrade({ origin, cookie: `${cookie}x` })).toBe(403);
    expect(await upgrade({ origin, cookie }, "/")).toBe(404);
    expect(await upgrade({ origin, cookie }, "//evil.example/api")).toBe(404);
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
    expect(await cookieOf(joined.body)).toContain("pebblechime-");
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
    const cookie = await cookieOf(host.invite());
    const { status, body } = await ask(path, { cookie });
    // A path without an ending is a screen, so it may get the page; never the file it names.
    if (status === 200) expect(body).toContain("<title>page</title>");
    else expect([400, 404]).toContain(status);
    expect(body).not.toContain("import");
    expect(body).not.toContain("root:");
    expect(body).not.toContain("secret");
  });

  it("gives the page for each screen, and files with their kinds", async () => {
    const cookie = await cookieOf(host.invite());
    for (const path of ["/", "/board", "/groups/7/plan"]) {
      expect(await ask(path, { cookie })).toMatchObject({
        status: 200,
        headers: { "content-type": "text/html; charset=utf-8", "cache-control": "no-cache" },
      });
    }
    expect(await ask("/assets/one-abc123.js", { cookie })).toMatchObject({
      status: 200,
      body: "export const one = 1;\n",
      headers: { "content-type": "text/javascript; charset=utf-8" },
    });
    expect((await ask("/", { cookie }, "HEAD")).body).toBe("");
  });

  it("sends the content policy and its companions with every answer", async () => {
    const cookie = await cookieOf(host.invite());
    const answers = [
      await ask("/", { cookie }),
      await ask("/assets/one-abc123.js", { cookie }),
      await ask("/nothing.js", { cookie }),
      await ask("/"),
      await ask("/", { host: "evil.example" }),
      await ask(pathOf(host.invite())),
      await ask("/?key=spent"),
      await ask("/", { cookie }, "POST"),
      await ask("/join", {}, "POST"),
      await ask("/api", { cookie }),
      await ask("/..\\back", { cookie }),
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
    const cookie = await cookieOf(host.invite());
    for (const method of ["POST", "PUT", "DELETE", "PATCH", "OPTIONS"]) {
      expect((await ask("/", { cookie }, method)).status).toBe(405);
    }
  });
});

describe("stopping", () => {
  it("ends open sockets and frees the port", async () => {
    const cookie = await cookieOf(host.invite());
    const socket = new WebSocket(`ws://127.0.0.1:${host.port}/api`, {
      headers: { cookie, origin: host.origin },
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
