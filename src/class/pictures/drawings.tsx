import type { ReactNode } from "react";
import type { PictureName } from "./picture-names.ts";

/** Our own drawings on a sheet of 48 by 48, in one pen; `picture-wash` is a soft fill. */
export const drawings: Record<PictureName, ReactNode> = {
  leaf: (
    <>
      <path className="picture-wash" d="M9 39C6 20 18 8 40 8c1 21-10 34-31 31z" />
      <path d="M9 39 30 18M17 31l-1-10M24 24l10 1" />
    </>
  ),
  kite: (
    <>
      <path className="picture-wash" d="M28 4 42 18 26 32 14 16z" />
      <path d="M28 4 26 32M14 16l28 2M26 32c-4 3 0 6-5 7s-4 4-10 4" />
    </>
  ),
  shell: (
    <>
      <path className="picture-wash" d="M24 42 7 24C8 12 15 6 24 6s16 6 17 18z" />
      <path d="M24 42V6M24 42 15 8M24 42 33 8M19 42h10" />
    </>
  ),
  star: (
    <path
      className="picture-wash"
      d="m24 5 5.5 13 14 1.2-10.6 9.2 3.3 13.7L24 34.7l-12.2 7.4 3.3-13.7L4.5 19.2l14-1.2z"
    />
  ),
  boat: (
    <>
      <path className="picture-wash" d="M5 32h38l-6 10H12z" />
      <path d="M23 32V5M23 7c9 4 13 11 13 20H23M23 13c-6 3-9 8-10 14h10" />
    </>
  ),
  fish: (
    <>
      <path className="picture-wash" d="M5 24c7-11 20-13 28-3l10-8v22l-10-8c-8 10-21 8-28-3z" />
      <path d="M19 15c4 5 4 13 0 18" />
      <circle className="picture-ink" cx="12" cy="22" r="1.6" />
    </>
  ),
  bird: (
    <>
      <path
        className="picture-wash"
        d="M8 20c0-8 12-10 15-2 4 5 11 3 20 7-4 12-24 15-31 5-3-3-4-6-4-10z"
      />
      <path d="M8 19 3 22l6 2M22 25c5 2 9 2 13 0M21 36v7M27 36v7M18 43h13" />
      <circle className="picture-ink" cx="14" cy="18" r="1.6" />
    </>
  ),
  cup: (
    <>
      <path className="picture-wash" d="M8 18h26v12c0 7-5 11-13 11S8 37 8 30z" />
      <path d="M34 21h4c6 0 6 11-1 11h-4M16 12c-2-3 2-4 0-7M25 12c-2-3 2-4 0-7" />
    </>
  ),
  key: (
    <>
      <circle className="picture-wash" cx="15" cy="16" r="10" />
      <circle cx="15" cy="16" r="3.5" />
      <path d="m22 23 19 19M33 34l5-5M38 39l4-4" />
    </>
  ),
  mushroom: (
    <>
      <path className="picture-wash" d="M5 26C6 12 14 6 24 6s18 6 19 20z" />
      <path d="M18 26c1 7 0 11-3 16h18c-3-5-4-9-3-16" />
      <circle cx="17" cy="17" r="2.5" />
      <circle cx="30" cy="15" r="3" />
    </>
  ),
  snail: (
    <>
      <circle className="picture-wash" cx="22" cy="22" r="14" />
      <path d="M22 22c0-4 6-3 6 1s-7 7-11 3-1-13 7-12M5 40c9 0 20 1 30 0 7-1 6-8 6-18M41 22l-3-7M41 22l4-7M5 40c0-4 4-7 8-8" />
    </>
  ),
  cloud: (
    <path className="picture-wash" d="M13 37C3 37 2 24 12 23c0-12 17-15 20-4 13-2 15 18 2 18z" />
  ),
  moon: (
    <>
      <path className="picture-wash" d="M30 6C16 10 14 33 31 39 20 46 6 38 6 24S19 2 30 6z" />
      <path d="M38 12v8M34 16h8" />
    </>
  ),
  acorn: (
    <>
      <path className="picture-wash" d="M11 22c0 12 6 17 13 21 7-4 13-9 13-21z" />
      <path d="M8 22c0-8 7-12 16-12s16 4 16 12zM24 10c0-3 1-4 3-6M15 16l4 6M24 14v8M33 16l-4 6" />
    </>
  ),
  umbrella: (
    <>
      <path
        className="picture-wash"
        d="M5 25C6 13 14 7 24 7s18 6 19 18c-5-4-9-4-13 0-4-4-8-4-12 0-4-4-8-4-13 0z"
      />
      <path d="M24 4v33c0 7 9 7 9 1" />
    </>
  ),
  lantern: (
    <>
      <path className="picture-wash" d="M13 18h22l2 20H11z" />
      <path d="M16 18c0-4 3-7 8-7s8 3 8 7M20 11c0-8 8-8 8 0M9 43h30M9 38h30M24 34c-5-3-2-6 0-10 2 4 5 7 0 10z" />
    </>
  ),
  apple: (
    <>
      <path
        className="picture-wash"
        d="M24 17c-6-5-17-3-17 9 0 9 6 18 12 18 3 0 3-1 5-1s2 1 5 1c6 0 12-9 12-18 0-12-11-14-17-9z"
      />
      <path d="M24 17c0-4 1-8 4-11M29 9c2-4 7-5 11-3-1 5-6 6-11 3z" />
    </>
  ),
  bell: (
    <>
      <path
        className="picture-wash"
        d="M7 36c5-4 5-9 5-15C12 13 17 8 24 8s12 5 12 13c0 6 0 11 5 15z"
      />
      <path d="M24 8V4M20 36c0 7 8 7 8 0M12 30h24" />
    </>
  ),
  anchor: (
    <>
      <circle className="picture-wash" cx="24" cy="9" r="5" />
      <path d="M24 14v30M14 20h20M6 28c1 10 8 16 18 16s17-6 18-16M2 33l4-5 5 4M46 33l-4-5-5 4" />
    </>
  ),
  pine: (
    <>
      <path className="picture-wash" d="m24 3 9 12h-5l9 11h-6l11 12H6l11-12h-6l9-11h-5z" />
      <path d="M20 38v7h8v-7" />
    </>
  ),
  sun: (
    <>
      <circle className="picture-wash" cx="24" cy="24" r="10" />
      <path d="M24 3v6M24 39v6M3 24h6M39 24h6M9 9l4 4M35 35l4 4M39 9l-4 4M13 35l-4 4" />
    </>
  ),
  house: (
    <>
      <path className="picture-wash" d="M9 22v21h30V22L24 7z" />
      <path d="M4 26 24 6l20 20M20 43V30h9v13M33 11V6h5v10" />
    </>
  ),
  flower: (
    <>
      <path
        className="picture-wash"
        d="M24 3c6 0 6 6 5 8 2-2 8-3 9 2 2 6-4 8-6 8 3 1 6 6 2 10-5 3-9-1-10-3-1 2-5 6-10 3-4-4-1-9 2-10-2 0-8-2-6-8 1-5 7-4 9-2-1-2-1-8 5-8z"
      />
      <circle className="picture-ink" cx="24" cy="18" r="4" />
      <path d="M24 29v16M24 42c-2-6-7-7-11-6 1 5 6 8 11 6z" />
    </>
  ),
  pencil: (
    <>
      <path className="picture-wash" d="M31 6l11 11-25 25-13 2 2-13z" />
      <path d="M25 12l11 11M6 31l11 11M29 8l11 11" />
      <path className="picture-ink" d="M4 44l1-7 6 6z" />
    </>
  ),
  book: (
    <>
      <path
        className="picture-wash"
        d="M24 12C19 7 11 7 4 9v30c7-2 15-2 20 3 5-5 13-5 20-3V9c-7-2-15-2-20 3z"
      />
      <path d="M24 12v30M10 17c3-1 6 0 9 1M10 25c3-1 6 0 9 1M38 17c-3-1-6 0-9 1M38 25c-3-1-6 0-9 1" />
    </>
  ),
  drum: (
    <>
      <path className="picture-wash" d="M6 20v16c0 9 36 9 36 0V20" />
      <ellipse cx="24" cy="20" rx="18" ry="7" />
      <path d="M6 22l9 20M15 26 7 40M24 27l-9 15M24 27l9 15M33 26l8 14M42 22l-9 20M18 19 6 4M28 18 42 4" />
    </>
  ),
  hat: (
    <>
      <path className="picture-wash" d="M12 35 15 8h18l3 27" />
      <path d="M2 37c10-4 34-4 44 0-8 7-36 7-44 0zM13 28h22M14 22h20" />
    </>
  ),
  cactus: (
    <>
      <path
        className="picture-wash"
        d="M19 34V10c0-8 10-8 10 0v13h4v-7c0-5 7-5 7 0v8c0 4-3 6-6 6h-5v4M19 28h-5c-3 0-6-2-6-6v-5c0-5 7-5 7 0v4h4"
      />
      <path d="M12 34h24l-3 11H15zM24 10v3M24 18v3M24 26v3" />
    </>
  ),
  butterfly: (
    <>
      <path
        className="picture-wash"
        d="M24 21C19 8 5 5 4 13c-1 7 6 12 12 12-8 1-11 8-7 13 5 6 14-1 15-10 1 9 10 16 15 10 4-5 1-12-7-13 6 0 13-5 12-12-1-8-15-5-20 8z"
      />
      <path d="M24 17v23M24 17c-1-6-3-9-6-11M24 17c1-6 3-9 6-11" />
      <circle cx="12" cy="15" r="2.5" />
      <circle cx="36" cy="15" r="2.5" />
    </>
  ),
  balloon: (
    <>
      <path
        className="picture-wash"
        d="M24 4c10 0 16 7 16 15 0 7-6 11-10 16H18C14 30 8 26 8 19 8 11 14 4 24 4z"
      />
      <path d="M24 4c-6 4-7 22-2 31M24 4c6 4 7 22 2 31M19 35l1 4M29 35l-1 4M18 39h12v6H18z" />
    </>
  ),
  clock: (
    <>
      <circle className="picture-wash" cx="24" cy="25" r="17" />
      <path d="M24 15v10l8 5M24 8v3M24 39v3M7 25h3M38 25h3M10 40l-4 5M38 40l4 5M4 13c1-5 4-8 9-9M44 13c-1-5-4-8-9-9" />
    </>
  ),
  parcel: (
    <>
      <path className="picture-wash" d="M7 22h34v22H7zM4 14h40v8H4z" />
      <path d="M20 14v30M28 14v30M24 14C18 2 8 4 11 10c2 4 8 4 13 4zM24 14C30 2 40 4 37 10c-2 4-8 4-13 4z" />
    </>
  ),
  carrot: (
    <>
      <path className="picture-wash" d="M27 14c6-2 11 3 9 9C31 33 19 41 5 44 8 30 16 18 27 14z" />
      <path d="M32 15c0-5 2-9 5-11M34 17c3-4 7-6 11-6M33 16l8-9M20 20l5 5M14 27l4 4M27 31l-4-4" />
    </>
  ),
  mountain: (
    <>
      <path className="picture-wash" d="M2 41 19 9l10 18 5-8 12 22z" />
      <path d="m13 21 4 4 3-4 3 4 3-3M30 25l4 3 4-3" />
      <circle cx="38" cy="9" r="4" />
    </>
  ),
  rainbow: (
    <>
      <path className="picture-wash" d="M3 39C3 2 45 2 45 39h-7C38 12 10 12 10 39z" />
      <path d="M10 39C10 12 38 12 38 39M17 39c0-18 14-18 14 0M3 39h14M31 39h14" />
    </>
  ),
  boot: (
    <>
      <path className="picture-wash" d="M13 5h16v19c8 2 14 5 14 13H13z" />
      <path d="M10 37h34v6H28l-2-2H16l-1 2h-5zM13 12h16M24 20h5M24 25h6" />
    </>
  ),
  scissors: (
    <>
      <circle className="picture-wash" cx="12" cy="37" r="7" />
      <circle className="picture-wash" cx="36" cy="37" r="7" />
      <path d="M16 31 32 4M32 31 16 4" />
      <circle className="picture-ink" cx="24" cy="18" r="1.6" />
    </>
  ),
  turtle: (
    <>
      <path className="picture-wash" d="M6 32C7 18 14 12 22 12s15 6 16 20z" />
      <path d="M3 32h35c4 0 8-3 8-7s-7-5-9 0M9 32c0 5 1 8 5 8s4-4 4-8M27 32c0 5 1 8 5 8s4-4 4-8M16 32l2-10h9l2 10M18 22l-4-7M27 22l3-7" />
      <circle className="picture-ink" cx="42" cy="25" r="1.3" />
    </>
  ),
  mitten: (
    <>
      <path className="picture-wash" d="M13 35V16C13 2 32 2 32 16v5c2-5 11-5 11 1 0 5-6 7-11 13z" />
      <path d="M11 35h23v9H11zM17 35v9M23 35v9M28 35v9M13 21h8" />
    </>
  ),
  wheel: (
    <>
      <circle className="picture-wash" cx="24" cy="24" r="19" />
      <circle cx="24" cy="24" r="13" />
      <circle className="picture-ink" cx="24" cy="24" r="3" />
      <path d="M24 11v26M12.7 17.5l22.6 13M12.7 30.5l22.6-13" />
    </>
  ),
};
