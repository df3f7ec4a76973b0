import type { ReactNode } from "react";
import type { PictureName } from "./picture-names.ts";
import "./picture.css";

/** Our own drawings on a sheet of 48 by 48, in one pen; `picture-wash` is a soft fill. */
const drawings: Record<PictureName, ReactNode> = {
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
};

/** One of the built-in pictures: decoration, because a name always stands beside it or labels its control. */
export function Picture({ name }: { name: PictureName }) {
  return (
    <svg className="picture" viewBox="0 0 48 48" aria-hidden="true">
      {drawings[name]}
    </svg>
  );
}
