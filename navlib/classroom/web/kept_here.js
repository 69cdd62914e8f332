// @ts-check
// What this browser keeps for a learner, so that it outlives the page: answers on their way, what
// was begun, and where the instruments lie.

/** @typedef {{get: (name: string) => any, put: (name: string, value: any) => void,
 *   names: (start: string) => string[], lasting: boolean}} Kept */

/** @param {string} owner  each learner's own, on a device that several share @returns {Kept} */
function keptHere(owner) {
  const mine = `nav-class/${owner}/`;
  /** @type {Map<string, string>} where the browser keeps nothing */
  const fleeting = new Map();
  const lasting = keepsAnything();

  return {
    lasting,
    get(name) {
      const text = fleeting.get(name) ?? (lasting ? localStorage.getItem(mine + name) : null);
      try {
        return JSON.parse(text ?? "null");
      } catch {
        return null;
      }
    },
    put(name, value) {
      fleeting.delete(name);
      if (lasting && value === null) localStorage.removeItem(mine + name);
      if (value === null) return;
      const text = JSON.stringify(value);
      try {
        localStorage.setItem(mine + name, text);
      } catch {
        fleeting.set(name, text);
      }
    },
    names(start) {
      const kept = lasting ? Object.keys(localStorage) : [];
      const here = kept.filter((name) => name.startsWith(mine)).map((name) => name.slice(mine.length));
      return [...here, ...fleeting.keys()].filter((name) => name.startsWith(start)).sort();
    },
  };
}

function keepsAnything() {
  try {
    localStorage.setItem("nav-class-try", "1");
    localStorage.removeItem("nav-class-try");
    return true;
  } catch {
    return false;
  }
}
