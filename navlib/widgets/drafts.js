// @ts-check
// What a card keeps in the browser: what was typed and not handed in, and what lies on the sheet.

/**
 * A short name for the question that a face shows: boxes keep what was typed while it stays.
 * @param {Face} face @param {Picture | null} picture
 */
function questionKey(face, picture) {
  const asked = face.parts.map((part) => [part.name, part.prompt, part.options]);
  const text = JSON.stringify([face.title, face.text, face.table, asked, picture?.svg ?? ""]);
  let hash = 5381;
  for (let n = 0; n < text.length; n++) hash = ((hash * 33) ^ text.charCodeAt(n)) >>> 0;
  return `${text.length}-${hash}`;
}

/**
 * Keep what was typed and not handed in, and what lies on the sheet, so that both outlive the page
 * and the kernel.
 * @param {"draft" | "lies"} what @param {string} key @param {Record<string, any> | null} value
 */
function keep(what, key, value) {
  try {
    if (value) sessionStorage.setItem(`nav-${what}-${key}`, JSON.stringify(value));
    else sessionStorage.removeItem(`nav-${what}-${key}`);
  } catch {
    // A browser that keeps nothing keeps no draft either.
  }
}

/** @param {"draft" | "lies"} what @param {string} key @returns {Record<string, any> | null} */
function kept(what, key) {
  try {
    return JSON.parse(sessionStorage.getItem(`nav-${what}-${key}`) ?? "null");
  } catch {
    return null;
  }
}
