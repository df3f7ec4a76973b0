/** This window's name on the desktop side, until it is closed or loaded again; it means nothing else. */
export const windowName = [...crypto.getRandomValues(new Uint32Array(3))]
  .map((part) => part.toString(36))
  .join("-");
