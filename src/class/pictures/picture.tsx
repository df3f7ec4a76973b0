import { drawings } from "./drawings.tsx";
import type { PictureName } from "./picture-names.ts";
import "./picture.css";

/** One of the built-in pictures: decoration, because a name always stands beside it or labels its control. */
export function Picture({ name }: { name: PictureName }) {
  return (
    <svg className="picture" viewBox="0 0 48 48" aria-hidden="true">
      {drawings[name]}
    </svg>
  );
}
