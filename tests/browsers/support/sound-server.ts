import { spawn } from "node:child_process";
import { existsSync, mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";

const program = "/usr/bin/pulseaudio";

/** A sound server of the test's own whose loudspeaker nobody hears. */
export interface SoundServer {
  /** What a browser's environment needs to play there. */
  readonly env: Readonly<Record<string, string>>;
  close(): Promise<void>;
}

/** Starts one; null where PulseAudio is not installed, so that cues can only be shown. */
export async function openSoundServer(): Promise<SoundServer | null> {
  if (!existsSync(program)) return null;
  const home = mkdtempSync(join(tmpdir(), "pebblechime-sound-"));
  const socket = join(home, "native");
  const env = {
    XDG_RUNTIME_DIR: home,
    PULSE_RUNTIME_PATH: home,
    PULSE_SERVER: `unix:${socket}`,
  };
  const child = spawn(
    program,
    [
      "-n",
      "--daemonize=no",
      "--exit-idle-time=-1",
      `--load=module-native-protocol-unix socket=${socket}`,
      "--load=module-null-sink rate=48000 channels=2",
    ],
    { stdio: "ignore", env: { ...process.env, ...env, HOME: home } },
  );
  for (const limitMs = Date.now() + 10_000; !existsSync(socket); ) {
    if (child.exitCode !== null || Date.now() > limitMs)
      throw new Error("The sound server did not start.");
    await new Promise((resolve) => setTimeout(resolve, 50));
  }
  return {
    env,
    async close() {
      const gone = new Promise((resolve) => child.once("exit", resolve));
      child.kill("SIGTERM");
      await gone;
      rmSync(home, { recursive: true, force: true, maxRetries: 5, retryDelay: 200 });
    },
  };
}
