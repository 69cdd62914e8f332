// @ts-check
// Instruments that move by themselves, from one lie to another.

const GLIDE_MS = 450;

/**
 * What lies a part of the way from one lie to another; angles go the shorter way round.
 * @param {any} from @param {any} to @param {number} share @param {string} [name]
 * @returns {any}
 */
function between(from, to, share, name = "") {
  if (typeof from === "number" && typeof to === "number") {
    if (name === "scale" || name === "steps") return to;
    if (name === "turn" || name === "arm") return wrap(from + signed(to - from) * share);
    return from + (to - from) * share;
  }
  if (!from || !to || typeof from !== "object" || typeof to !== "object") return to;
  if (Array.isArray(to)) {
    if (to.length !== from.length) return to;
    return to.map((one, n) => between(from[n], one, share));
  }
  return Object.fromEntries(
    Object.entries(to).map(([key, value]) => [key, between(from[key], value, share, key)]),
  );
}
