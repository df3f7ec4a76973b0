import fc from "fast-check";

// A run must not fail or pass by chance: every law is tried on the same inputs, unless other ones are asked for
// with PEBBLECHIME_PROPERTY_SEED, a whole number or the word "any".
const asked = process.env.PEBBLECHIME_PROPERTY_SEED ?? "20261126";
if (asked !== "any") {
  const seed = Number(asked);
  if (!Number.isInteger(seed)) {
    throw new Error(`PEBBLECHIME_PROPERTY_SEED is a whole number or "any"; got "${asked}".`);
  }
  fc.configureGlobal({ seed });
}
