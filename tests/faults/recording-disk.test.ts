import { spawnSync } from "node:child_process";
import { existsSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { expect, test } from "vitest";
import { writeAll } from "../../electron/files/whole-file.ts";
import { chimeFolder } from "../../electron/recording/chime-folder.ts";
import { chimeLoader } from "../../electron/recording/load-chime.ts";
import { planRecording } from "../../electron/recording/render-recording.ts";
import { writeFlac } from "../../electron/recording/write-flac.ts";
import { temporaryFolder } from "../unit/electron/store/temporary-folder.ts";

const cli = fileURLToPath(new URL("../../electron/cli.ts", import.meta.url));
const session = ["cues", "--length", "1m", "--mean", "15s", "--shortest", "5s", "--seed", "abc"];

/** Records a session of one minute, about 6 MB, where no file may grow beyond so many KiB. */
function recordWithin(kibibytes: number, path: string) {
  const script = `ulimit -f ${kibibytes}; exec "$@"`;
  const words = [process.execPath, cli, ...session, "--wav", path];
  return spawnSync("bash", ["-c", script, "bash", ...words], { encoding: "utf8" });
}

test.skipIf(process.platform === "win32")(
  "1. a recording that does not fit is told, leaves nothing behind and keeps the earlier one",
  () => {
    const folder = temporaryFolder();
    const path = join(folder, "session.wav");
    // The limit falls into the first minute's block, and into the last one, whose write comes out short.
    for (const kibibytes of [1, 3000, 5700]) {
      const { status, stderr } = recordWithin(kibibytes, path);
      expect(stderr).toMatch(/--wav: the recording could not be written/);
      expect(status).toBe(1);
      expect(readdirSync(folder)).toEqual([]);
    }
    writeFileSync(path, "an earlier recording");
    expect(recordWithin(3000, path).status).toBe(1);
    expect(readFileSync(path, "utf8")).toBe("an earlier recording");
    expect(readdirSync(folder)).toEqual(["session.wav"]);

    expect(recordWithin(20_000, path)).toMatchObject({ status: 0 });
    const whole = readFileSync(path);
    expect(whole.length).toBe(44 + whole.readUInt32LE(40));
    expect(readdirSync(folder)).toEqual(["session.wav"]);
  },
  60_000,
);

test("2. a disk that takes few bytes at a time gets them all, each in its place", async () => {
  const taken = new Uint8Array(1000);
  const bytes = Uint8Array.from({ length: 900 }, (_, index) => index % 251);
  // Only the one shape of `write` is called, of the several that a file handle has.
  const write = (async (from: Uint8Array, offset: number, length: number, place: number) => {
    const bytesWritten = Math.min(7, length);
    taken.set(from.subarray(offset, offset + bytesWritten), place);
    return { bytesWritten, buffer: from };
  }) as Parameters<typeof writeAll>[0]["write"];
  await writeAll({ write }, bytes, 100);
  expect([...taken.subarray(100)]).toEqual([...bytes]);
});

test("3. a disk that takes no byte ends the writing with a sentence", async () => {
  // As above.
  const write = (async (from: Uint8Array) => ({
    bytesWritten: 0,
    buffer: from,
  })) as Parameters<typeof writeAll>[0]["write"];
  await expect(writeAll({ write }, new Uint8Array(5), 0)).rejects.toThrow("takes no more bytes");
});

test("4. a recording that breaks off half way keeps the earlier file", async () => {
  const folder = temporaryFolder();
  const path = join(folder, "session.flac");
  writeFileSync(path, "an earlier recording");
  const plan = { cues: [1], lengthSeconds: 5, chime: "bell", volume: 1 } as const;
  const whole = planRecording({ ...plan, announcements: false, load: chimeLoader(chimeFolder()) });
  const broken = {
    ...whole,
    *blocks() {
      yield new Float32Array(48_000);
      throw new Error("the rest is not to be had");
    },
  };
  await expect(writeFlac(path, broken)).rejects.toThrow("not to be had");
  expect(readFileSync(path, "utf8")).toBe("an earlier recording");
  expect(readdirSync(folder)).toEqual(["session.flac"]);
});

test.skipIf(process.platform === "win32")("5. a device is refused, never replaced", async () => {
  const plan = { cues: [], lengthSeconds: 1, chime: "bell", volume: 1 } as const;
  const load = chimeLoader(chimeFolder());
  const recording = planRecording({ ...plan, announcements: false, load });
  await expect(writeFlac("/dev/null", recording)).rejects.toThrow("is not a file");
  expect(existsSync("/dev/null")).toBe(true);
});
