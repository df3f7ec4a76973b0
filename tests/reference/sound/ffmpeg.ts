import { spawnSync } from "node:child_process";

/** Whether the outside meter is there. */
export const ffmpegIsThere = spawnSync("ffmpeg", ["-version"]).status === 0;

export const missingFfmpeg =
  "ffmpeg is not installed, so the chimes' loudness was not measured. Install it (Debian: apt-get install ffmpeg).";

/** What ffmpeg's ebur128 filter (EBU R 128, ITU-R BS.1770) says of one sound. */
export interface Loudness {
  /** Gated loudness of the whole, LUFS. */
  readonly integrated: number;
  /** Loudest 400 ms, LUFS. */
  readonly momentary: number;
  /** dBTP. */
  readonly truePeak: number;
}

/**
 * Measures with ffmpeg. `input` are its input options and `filter` what the sound goes through before
 * the meter; one such filter pads a sound that is shorter than a gating block.
 */
export function measureLoudness(input: readonly string[], filter = "anull"): Loudness {
  const chain = `${filter},ebur128=peak=true:metadata=1,ametadata=mode=print:file=-`;
  const run = spawnSync(
    "ffmpeg",
    ["-nostdin", "-hide_banner", ...input, "-filter:a", chain, "-f", "null", "-"],
    { encoding: "utf8", maxBuffer: 1 << 28 },
  );
  if (run.status !== 0) throw new Error(`ffmpeg could not measure: ${run.stderr.slice(-500)}`);
  const integrated = readings(run.stdout, "I").at(-1);
  const truePeak = readings(run.stdout, "true_peak").at(-1);
  const momentary = Math.max(...readings(run.stdout, "M"));
  if (integrated === undefined || truePeak === undefined || !Number.isFinite(momentary)) {
    throw new Error("ffmpeg gave no loudness; the sound may be shorter than 400 ms or silent.");
  }
  return { integrated, momentary, truePeak: 20 * Math.log10(truePeak) };
}

function readings(text: string, name: string): number[] {
  return [...text.matchAll(new RegExp(`^lavfi\\.r128\\.${name}=(.*)$`, "gm"))]
    .map((match) => Number(match[1]))
    .filter(Number.isFinite);
}
