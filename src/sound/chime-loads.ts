import type { SoundName } from "../../shared/plan/sound-names.ts";
import type { AudioOutput } from "./audio-output.ts";

/** How far a chime's loading is. */
export type ChimeState = "loading" | "loaded" | "failed";

/** The loading of chimes; one that failed is tried again when it is asked for again. */
export type ChimeLoads = ReturnType<typeof chimeLoads>;

/** @param settled called after a chime was loaded or failed */
export function chimeLoads(output: AudioOutput, settled: () => void) {
  const states = new Map<SoundName, ChimeState>();
  /** What is being loaded or has been: whoever asks for a chime meanwhile waits for the same load. */
  const loads = new Map<SoundName, Promise<void>>();

  async function loadAnew(name: SoundName): Promise<void> {
    states.set(name, "loading");
    try {
      await output.load(name);
      states.set(name, "loaded");
    } catch (error) {
      states.set(name, "failed");
      loads.delete(name);
      throw error;
    } finally {
      settled();
    }
  }

  function load(name: SoundName): Promise<void> {
    const under = loads.get(name) ?? loadAnew(name);
    loads.set(name, under);
    return under;
  }

  return {
    load,
    /** Undefined for a chime that nobody has asked for. */
    state: (name: SoundName): ChimeState | undefined => states.get(name),
    /** Loads several; rejects with the names of those that failed, the others can be used. */
    async loadAll(names: readonly SoundName[]): Promise<void> {
      const results = await Promise.allSettled(names.map(load));
      const lost = names.filter((_, index) => results[index]?.status === "rejected");
      if (lost.length > 0) throw new Error(`Chimes that could not be loaded: ${lost.join(", ")}.`);
    },
  };
}
