import { mkdtempSync, rmSync } from "node:fs";
import { networkInterfaces, tmpdir } from "node:os";
import { join } from "node:path";
import WebSocket from "ws";
import { type Desktop, openDesktop } from "../../../electron/host/desktop.ts";
import type { DesktopClock } from "../../../electron/services/base/clock.ts";
import { openStore } from "../../../electron/store/store.ts";
import { buildSeat } from "../../../scripts/seats/build-seat.ts";
import type { Session } from "../../../shared/api/sessions.ts";
import { firstPlan, type PlanSettings } from "../../../shared/plan/plan.ts";
import { type FromSeat, type ToSeat, toSeatSchema } from "../../../shared/seats/message.ts";
import type { SessionEvent, SessionEventBody } from "../../../shared/session/event.ts";

const root = join(import.meta.dirname, "..", "..", "..");
let built: Promise<string> | null = null;

/** The page for devices, built once for all tests of a file. */
export function builtPage(): Promise<string> {
  built ??= (async () => {
    const folder = mkdtempSync(join(tmpdir(), "pebblechime-seats-"));
    await buildSeat(root, folder);
    return folder;
  })();
  return built;
}

/** Asks again and again until there is something. */
export async function until<Found>(
  look: () => Found | undefined | null | false,
  what: string,
  ms = 20_000,
): Promise<Found> {
  const last = performance.now() + ms;
  for (;;) {
    const found = look();
    if (found) return found;
    if (performance.now() > last) throw new Error(`Waited in vain for ${what}.`);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
}

export interface Device {
  readonly heard: ToSeat[];
  /** All that came, as it came. */
  readonly bytes: string[];
  send(message: FromSeat): void;
  sendRaw(data: string | Buffer): void;
  /** The first message of a kind that fits. */
  hears<Kind extends ToSeat["kind"]>(
    kind: Kind,
    fits?: (message: Extract<ToSeat, { readonly kind: Kind }>) => boolean,
  ): Promise<Extract<ToSeat, { readonly kind: Kind }>>;
  readonly closed: Promise<number>;
  isClosed(): boolean;
  readonly socket: WebSocket;
}

export interface Knock {
  readonly origin?: string | null;
  readonly host?: string;
  readonly headers?: Readonly<Record<string, string>>;
  /** One of 127.0.0.0/8, as devices of different addresses. */
  readonly from?: string;
  readonly path?: string;
}

/** Opens a line as a device of the room does, or in another way where a test says so. */
export async function knock(port: number, how: Knock = {}): Promise<Device> {
  const { origin = `http://127.0.0.1:${port}`, host, from, path = "/seat" } = how;
  const socket = new WebSocket(`ws://127.0.0.1:${port}${path}`, {
    headers: {
      ...(origin === null ? {} : { origin }),
      ...(host === undefined ? {} : { host }),
      ...how.headers,
    },
    ...(from === undefined ? {} : { localAddress: from }),
  });
  const heard: ToSeat[] = [];
  const bytes: string[] = [];
  let over = false;
  const closed = new Promise<number>((resolve) =>
    socket.on("close", (code) => {
      over = true;
      resolve(code);
    }),
  );
  const waiting = new Set<() => void>();
  socket.on("message", (data) => {
    bytes.push(String(data));
    // A message with a field more than its list fails the test that heard it.
    heard.push(toSeatSchema.parse(JSON.parse(String(data))));
    for (const look of [...waiting]) look();
  });
  await new Promise<void>((resolve, reject) => {
    socket.on("open", resolve);
    socket.on("error", reject);
  });
  return {
    heard,
    bytes,
    socket,
    closed,
    isClosed: () => over,
    send: (message) => socket.send(JSON.stringify(message)),
    sendRaw: (data) => socket.send(data),
    hears: (kind, fits = () => true) =>
      new Promise((resolve, reject) => {
        type Heard = Extract<ToSeat, { readonly kind: typeof kind }>;
        const look = () => {
          const found = heard.find(
            (message): message is Heard => message.kind === kind && fits(message as Heard),
          );
          if (found === undefined) return;
          waiting.delete(look);
          clearTimeout(timer);
          resolve(found);
        };
        const timer = setTimeout(() => {
          waiting.delete(look);
          reject(new Error(`Waited in vain for "${kind}" on a line that heard ${bytes.join(" ")}`));
        }, 25_000);
        waiting.add(look);
        look();
      }),
  };
}

export interface RoomOptions {
  readonly clock: DesktopClock;
  readonly students: readonly string[];
  readonly plan?: Partial<PlanSettings>;
  readonly socketsAnAddress?: number;
  readonly certificateFile?: string;
}

/** A class in an empty folder, written before the app opens it: a bench's room holds more than a class may. */
function furnish(folder: string, { clock, students }: RoomOptions): string {
  const store = openStore({ folder, now: clock.wallMs });
  const facts = { name: "Invented class", target: "", isSample: false };
  const { id } = store.groups.create(facts, clock.wallMs());
  store.students.add(id, students, clock.wallMs());
  store.close();
  return id;
}

/** A real desktop side on a real folder, with a slip for each student, and seats open. */
export async function openRoom(options: RoomOptions) {
  const folder = mkdtempSync(join(tmpdir(), "pebblechime-room-"));
  const groupId = furnish(folder, options);
  const desktop: Desktop = await openDesktop({
    folder,
    clock: options.clock,
    host: "loopback",
    version: "0",
    seats: {
      folder: await builtPage(),
      port: 0,
      certificateFile: options.certificateFile ?? null,
      socketsAnAddress: options.socketsAnAddress ?? 60,
    },
  });
  const { handlers } = desktop;
  const context = { clientId: "teacher", signal: new AbortController().signal };
  const students = await handlers.students.list({ groupId, archived: false }, context);
  const each = { law: "fixed", meanSeconds: 60, lengthSeconds: 3_600, cueing: "silent" } as const;
  const settings = { ...firstPlan, ...each, ...options.plan };
  const plan = await handlers.plans.create({ groupId, name: "Each minute", settings }, context);
  await handlers.app.saveSettings({ seats: true }, context);
  const { slips } = await handlers.seats.makeSlips({ groupId, seatIds: null }, context);
  await handlers.seats.open(undefined, context);
  const state = () => handlers.seats.state({ groupId }, context);
  const address = (await state()).addresses[0] ?? "";
  const port = Number(new URL(address).port);
  const open = new Set<Device>();

  return {
    folder,
    desktop,
    handlers,
    context,
    groupId,
    students,
    slips,
    port,
    state,
    codeOf: (number: number) => slips.find((slip) => slip.number === number)?.code ?? "",
    async knock(how?: Knock): Promise<Device> {
      const device = await knock(port, how);
      open.add(device);
      return device;
    },
    /** A device that has joined with its slip. */
    async join(number: number, how?: Knock): Promise<Device> {
      const device = await this.knock(how);
      device.send({ kind: "hello", code: this.codeOf(number) });
      await device.hears("seat");
      device.send({ kind: "ready", carriers: ["sign"] });
      return device;
    },
    async start(more: { readonly byTouchIds?: string[] } = {}): Promise<Session> {
      const { id: planId } = plan;
      const begin = { groupId, planId, kind: "seatwork" } as const;
      return handlers.sessions.start({ ...begin, seed: "room", ...more }, context);
    },
    /** The log of the session, read from the disk once the app has gone. */
    async eventsOf(sessionId: string): Promise<SessionEvent[]> {
      await this.close(false);
      const store = openStore({ folder, now: Date.now });
      const events = store.log.read(sessionId, 0);
      store.close();
      rmSync(folder, { recursive: true, force: true });
      return events;
    },
    /** What that log says, without its moments. */
    async logOf(sessionId: string): Promise<SessionEventBody[]> {
      return (await this.eventsOf(sessionId)).map(({ body }) => body);
    },
    async close(forGood = true): Promise<void> {
      for (const { socket } of open) socket.terminate();
      await desktop.close();
      if (forGood) rmSync(folder, { recursive: true, force: true });
    },
  };
}
export type Room = Awaited<ReturnType<typeof openRoom>>;

/** Shows the next cue that a device is told of, at its moment, and says so. */
export async function showNext(
  device: Device,
  after = 0,
): Promise<{ session: string; cue: number }> {
  const { session, cue, atServer } = await device.hears("due", (due) => due.cue > after);
  const sentAt = performance.now();
  device.send({ kind: "clock", t: sentAt });
  const { at } = await device.hears("clock", ({ t }) => t === sentAt);
  await new Promise((resolve) => setTimeout(resolve, Math.max(0, atServer - at)));
  device.send({ kind: "began", session, cue, by: "sign", at: Math.max(at, atServer) });
  return { session, cue };
}

/** Any address of this computer that other computers could use. */
export const hasNetwork = (): boolean =>
  Object.values(networkInterfaces()).some((each) => each?.some(({ internal }) => !internal));
