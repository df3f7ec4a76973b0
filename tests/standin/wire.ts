/** Between the stand-in's main side and the preload's world; text only, because a DevTools binding is. */
export type ToMain =
  | { readonly kind: "send"; readonly channel: string; readonly values: string }
  | {
      readonly kind: "invoke";
      readonly id: number;
      readonly channel: string;
      readonly values: string;
    }
  | { readonly kind: "port-message"; readonly port: number; readonly value: string }
  | { readonly kind: "port-close"; readonly port: number }
  | { readonly kind: "title"; readonly title: string }
  | { readonly kind: "preload-error"; readonly message: string };

export type ToWorld =
  | {
      readonly kind: "event";
      readonly channel: string;
      readonly values: string;
      readonly ports: readonly number[];
    }
  | { readonly kind: "answer"; readonly id: number; readonly value: string }
  | { readonly kind: "failure"; readonly id: number; readonly message: string }
  | { readonly kind: "port-message"; readonly port: number; readonly value: string }
  | { readonly kind: "port-close"; readonly port: number };

/** Functions that run in both places and travel to the page as text; each stands alone. */
export interface Codec {
  encode(value: unknown): string;
  decode(text: string): unknown;
}

/**
 * Plain values as text, `undefined` included. Whatever else structured cloning could carry is refused
 * loudly: the app sends text and plain objects, and a test must notice when that changes.
 */
export function makeCodec(): Codec {
  const pack = (value: unknown): unknown => {
    if (value === undefined) return { u: 0 };
    if (value === null || typeof value === "string" || typeof value === "boolean")
      return { v: value };
    if (typeof value === "number" && Number.isFinite(value)) return { v: value };
    if (Array.isArray(value)) return { a: value.map(pack) };
    const isPlain =
      typeof value === "object" &&
      value !== null &&
      (Object.getPrototypeOf(value) === null ||
        Object.getPrototypeOf(Object.getPrototypeOf(value)) === null);
    if (!isPlain)
      throw new Error("An object could not be cloned: the stand-in carries plain values.");
    return { o: Object.entries(value).map(([key, held]) => [key, pack(held)]) };
  };
  const unpack = (packed: {
    v?: unknown;
    a?: readonly never[];
    o?: readonly (readonly [string, never])[];
  }): unknown => {
    if (packed.a !== undefined) return packed.a.map(unpack);
    if (packed.o !== undefined) {
      return Object.fromEntries(packed.o.map(([key, held]) => [key, unpack(held)]));
    }
    return packed.v;
  };
  return {
    encode: (value) => JSON.stringify(pack(value)),
    decode: (text) => unpack(JSON.parse(text)),
  };
}

export const codec: Codec = makeCodec();
