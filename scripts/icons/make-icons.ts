// Makes the icons of the installers from assets/icon.svg: npm run icons.
import { mkdirSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { openBrowser } from "../../tests/e2e/support/launch.ts";
import { root } from "../../tests/e2e/support/programs.ts";
import { icnsFile, icoFile, type SizedPng } from "./containers.ts";

const sizes = [16, 24, 32, 48, 64, 128, 256, 512, 1024];
const folder = join(root, "packaging", "icons");
const drawing = readFileSync(join(root, "assets", "icon.svg"), "utf8");

mkdirSync(folder, { recursive: true });
const browser = await openBrowser();
try {
  const page = await browser.newPage();
  const pictures: SizedPng[] = [];
  for (const size of sizes) {
    await page.setViewportSize({ width: size, height: size });
    await page.setContent(
      `<style>html,body{margin:0;background:transparent}svg{display:block;width:${size}px;height:${size}px}</style>${drawing}`,
    );
    const bytes = await page.screenshot({ omitBackground: true });
    pictures.push({ size, bytes });
    if (size >= 16 && size <= 1024) writeFileSync(join(folder, `${size}x${size}.png`), bytes);
  }
  writeFileSync(join(folder, "icon.ico"), icoFile(pictures.filter(({ size }) => size <= 256)));
  writeFileSync(join(folder, "icon.icns"), icnsFile(pictures));
} finally {
  await browser.close();
}
