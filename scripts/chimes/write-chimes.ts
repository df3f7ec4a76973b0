// Makes assets/chimes/*.wav anew. Run: npx node scripts/chimes/write-chimes.ts
import { mkdirSync, writeFileSync } from "node:fs";
import { soundNames } from "../../shared/plan/sound-names.ts";
import { renderChime } from "./render-chime.ts";

const folder = new URL("../../assets/chimes/", import.meta.url);
mkdirSync(folder, { recursive: true });
for (const name of soundNames) {
  const file = renderChime(name);
  writeFileSync(new URL(`${name}.wav`, folder), file);
  console.log(`${name}.wav ${file.length} bytes`);
}
