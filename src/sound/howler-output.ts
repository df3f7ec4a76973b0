import { Howl, Howler } from "howler";
import type { SoundName } from "../../shared/plan/sound-names.ts";
import type { AudioOutput } from "./audio-output.ts";
import { clockPairOf } from "./clock-pair.ts";
import { decodedBuffer } from "./decoded-buffer.ts";

interface LoadedChime {
  readonly howl: Howl;
  readonly buffer: AudioBuffer;
}

/** A chime that Howler itself plays, at a linear gain. */
interface Preview {
  readonly howl: Howl;
  readonly id: number;
  readonly volume: number;
}

/** The tone that keeps the device open: lower than small speakers go, and about two 16-bit steps high. */
const awakeHertz = 20;
const awakeGain = 6e-5;
/** Length of the blocks of sound asked for; the browser may take another. */
const blockSeconds = 0.1;
/** A chime that is taken back while it sounds fades within this time, in seconds. */
const stopSeconds = 0.03;

/**
 * Sound output through Howler: it owns the audio context, loads, decodes, mixes and previews. Cues start on
 * its context at a moment of the audio clock, which Howler's own `play` cannot do. Its master volume stays
 * full and each sound has its own: a preview must not change a cue that waits or sounds.
 *
 * @param addressOf where a chime is found; rejects when that cannot be told
 * @throws Error when the page has no Web Audio
 */
export function howlerOutput(addressOf: (name: SoundName) => Promise<string>): AudioOutput {
  // Left on, Howler would exchange its context for another when the first sound is loaded. It is
  // unlocked by `resume` within a click or key press.
  Howler.autoUnlock = false;
  const context = giveContext();

  const loaded = new Map<SoundName, LoadedChime>();
  let playing: Preview | null = null;
  let awakeTone: OscillatorNode | null = null;

  function chime(name: SoundName): LoadedChime {
    const found = loaded.get(name);
    if (!found) throw new Error(`The chime ${name} is not loaded.`);
    return found;
  }

  return {
    running: () => context.state === "running",
    audioSeconds: () => context.currentTime,
    clockPair: () => {
      const { currentTime, outputLatency } = context;
      const timestamp = context.getOutputTimestamp();
      return clockPairOf({ currentTime, outputLatency, timestamp }, performance.now());
    },
    async load(name) {
      if (loaded.has(name)) return;
      const howl = await loadHowl(await addressOf(name));
      loaded.set(name, { howl, buffer: decodedBuffer(howl) });
    },
    resume() {
      // A refusal shows as a state that is still not running.
      context.resume().catch(() => {});
    },
    start(name, audioSeconds, volume) {
      const gain = new GainNode(context, { gain: volume });
      const source = new AudioBufferSourceNode(context, { buffer: chime(name).buffer });
      source.connect(gain).connect(Howler.masterGain);
      source.onended = () => gain.disconnect();
      source.start(audioSeconds);
      return () => {
        const now = context.currentTime;
        gain.gain.setValueAtTime(volume, now);
        gain.gain.linearRampToValueAtTime(0, now + stopSeconds);
        // A source that is stopped before it starts never sounds.
        source.stop(now < audioSeconds ? now : now + stopSeconds);
      };
    },
    play(name, volume) {
      if (playing !== null) fadeOut(playing);
      const { howl } = chime(name);
      const id = howl.play();
      // Howler began it at the howl's own volume, and the audio clock may have gone on since.
      howl.volume(volume, id);
      playing = { howl, id, volume };
    },
    whenReached(audioSeconds, then) {
      // The end of a silent source comes from the audio thread: no timer that a hidden page slows down.
      const marker = new ConstantSourceNode(context, { offset: 0 });
      marker.connect(context.destination);
      const finish = () => {
        marker.onended = null;
        marker.disconnect();
      };
      marker.onended = () => {
        finish();
        then();
      };
      marker.start();
      marker.stop(audioSeconds);
      return finish;
    },
    holdAwake(awake) {
      Howler.autoSuspend = !awake;
      if (awake === (awakeTone !== null)) return;
      if (!awake) {
        awakeTone?.stop();
        awakeTone = null;
        return;
      }
      awakeTone = new OscillatorNode(context, { frequency: awakeHertz });
      awakeTone.connect(new GainNode(context, { gain: awakeGain })).connect(context.destination);
      awakeTone.start();
    },
    async hasDevice() {
      // Absent on pages that are not served securely; the context's own state then has to tell.
      if (!navigator.mediaDevices) return true;
      const devices = await navigator.mediaDevices.enumerateDevices();
      return devices.some((device) => device.kind === "audiooutput");
    },
    onChange(listener) {
      const onState = () => listener("state");
      const onError = () => listener("error");
      const onDevices = () => listener("devices");
      context.addEventListener("statechange", onState);
      context.addEventListener("error", onError);
      navigator.mediaDevices?.addEventListener("devicechange", onDevices);
      return () => {
        context.removeEventListener("statechange", onState);
        context.removeEventListener("error", onError);
        navigator.mediaDevices?.removeEventListener("devicechange", onDevices);
      };
    },
  };
}

/**
 * Gives Howler its context, in place of the one it would make for games: cues are known ahead, so long
 * blocks cost nothing and leave a busy machine time to fill them. Blocks that are not filled in time
 * are lost, and with them the time they stood for.
 */
function giveContext(): AudioContext {
  const given: AudioContext | null = Howler.ctx;
  if (given) return given;
  if (typeof AudioContext === "undefined") throw new Error("This page has no Web Audio.");
  const context = new AudioContext({ latencyHint: blockSeconds });
  Howler.ctx = context;
  Howler.masterGain = new GainNode(context, { gain: Howler.volume() });
  Howler.masterGain.connect(context.destination);
  return context;
}

/** A sound cut off clicks, so it fades; quick presses on several chimes blend. */
function fadeOut({ howl, id, volume }: Preview): void {
  if (!howl.playing(id)) return;
  howl.once("fade", () => howl.stop(id), id);
  howl.fade(volume, 0, stopSeconds * 1000, id);
}

function loadHowl(url: string): Promise<Howl> {
  return new Promise((resolve, reject) => {
    const howl = new Howl({
      src: [url],
      format: ["wav"],
      // What a sound begins at, before it is told its own: no sample may be louder than that.
      volume: 0,
      onload: () => resolve(howl),
      onloaderror: (_id, problem) => reject(new Error(`A chime could not be loaded: ${problem}`)),
    });
  });
}
