import type { ShippedSound } from "../../shared/plan/sound-names.ts";

/** Where the page finds each chime; written out, so that the bundler sees each file. */
export const chimeUrls: Readonly<Record<ShippedSound, string>> = {
  bell: new URL("../../assets/chimes/bell.wav", import.meta.url).href,
  wood: new URL("../../assets/chimes/wood.wav", import.meta.url).href,
  glass: new URL("../../assets/chimes/glass.wav", import.meta.url).href,
  marimba: new URL("../../assets/chimes/marimba.wav", import.meta.url).href,
  bowl: new URL("../../assets/chimes/bowl.wav", import.meta.url).href,
  pluck: new URL("../../assets/chimes/pluck.wav", import.meta.url).href,
  begin: new URL("../../assets/chimes/begin.wav", import.meta.url).href,
  end: new URL("../../assets/chimes/end.wav", import.meta.url).href,
};
