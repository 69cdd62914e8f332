// @ts-check
// What the parts of the coach's page share: asking the desk, fields with a label, files, bars.

/** @typedef {{turn: string, done: string, trouble?: string, says?: string, file?: {name: string,
 *   type: string, save?: boolean}, [more: string]: any}} Reply */
/** @typedef {{name: string, place: string, words: string}} KeptFile */

const SLOW_MS = 8000;

/**
 * Ask the desk, and get its answer as a promise.
 * @param {any} model @param {(slow: boolean) => void} slowly  whether the desk lets one wait
 */
function talk(model, slowly) {
  /** @type {Map<string, (reply: Reply) => void>} */
  const waiting = new Map();
  let timer = 0;
  const watch = () => {
    window.clearTimeout(timer);
    slowly(false);
    if (waiting.size) timer = window.setTimeout(() => slowly(true), SLOW_MS);
  };
  /** @param {Reply} reply @param {DataView[]} data */
  const heard = (reply, data) => {
    const done = waiting.get(reply.turn);
    if (!done) return;
    waiting.delete(reply.turn);
    watch();
    if (reply.file && data?.length) deliver(reply.file, data[0]);
    done(reply);
  };
  const working = () => watch();
  model.on("msg:custom", heard);
  model.on("change:progress", working);
  return {
    /** @param {string} action @param {Record<string, any>} [content] @returns {Promise<Reply>} */
    ask: (action, content = {}) =>
      new Promise((resolve) => {
        const turn = unique("turn");
        waiting.set(turn, resolve);
        watch();
        model.send({ do: action, ...content, turn });
      }),
    close: () => {
      window.clearTimeout(timer);
      model.off("msg:custom", heard);
      model.off("change:progress", working);
    },
  };
}

/**
 * Show a file in a page of its own, or let the browser save it.
 * @param {{name: string, type: string, save?: boolean}} file @param {DataView} data
 */
function deliver({ name, type, save }, data) {
  const address = URL.createObjectURL(new Blob([/** @type {any} */ (data)], { type }));
  const shown = save || type === "text/csv" ? {} : { target: "_blank" };
  const link = el("a", { href: address, download: "target" in shown ? null : name, ...shown });
  document.body.append(link);
  link.click();
  link.remove();
  window.setTimeout(() => URL.revokeObjectURL(address), 60000);
}

/** @param {number} level @param {string} words @param {Settings} [settings] */
const heading = (level, words, settings = {}) =>
  el("div", { class: "nav-title", role: "heading", "aria-level": level, ...settings }, words);

/**
 * A box with its label above.
 * @param {string} label @param {any} box @param {{name?: string}} [more]
 */
function field(label, box, { name = "" } = {}) {
  box.id = unique("box");
  const node = el(
    "div",
    { class: `nav-field ${name}` },
    el("label", { for: box.id }, label),
    box,
  );
  return { node, box };
}

/** @param {Settings} [settings] */
const textBox = (settings = {}) => el("input", { type: "text", autocomplete: "off", ...settings });

/** @param {[string, string][]} options  value and words each @param {Settings} [settings] */
const choice = (options, settings = {}) =>
  el("select", settings, ...options.map(([value, words]) => el("option", { value }, words)));

/** @param {string} words @param {string} [label] */
function tick(words, label = "") {
  const box = el("input", { type: "checkbox", "aria-label": label || null });
  return { box, node: el("label", { class: "nav-tick" }, box, words) };
}

/** @param {number} share 0 to 1 @returns {HTMLElement} a bar; its figure stands beside it */
const bar = (share) =>
  el(
    "span",
    { class: "nav-bar", "aria-hidden": "true" },
    el("span", { style: `width: ${Math.round(100 * share)}%` }),
  );

/**
 * A wide table that can be pushed sideways; the first cell of a row names it.
 * @param {string[]} heads
 * @param {(string | Node)[][]} rows @param {string} caption
 */
function tableOf(heads, rows, caption) {
  return el(
    "div",
    { class: "nav-table-room", tabindex: 0, role: "region", "aria-label": caption },
    el(
      "table",
      { class: "nav-table" },
      el("caption", {}, el("span", { class: "nav-title", role: "heading", "aria-level": 4 }, caption)),
      el("thead", {}, el("tr", {}, ...heads.map((words) => el("th", { scope: "col" }, words)))),
      el(
        "tbody",
        {},
        ...rows.map(([first, ...cells]) =>
          el("tr", {}, el("th", { scope: "row" }, first), ...cells.map((one) => el("td", {}, one))),
        ),
      ),
    ),
  );
}

/**
 * Links to files of a sitting, a line for each folder.
 * @param {[string, KeptFile[]][]} groups  words before each, and the files
 * @param {(place: string) => void} open
 */
function fileLists(groups, open) {
  const lines = groups
    .filter(([, files]) => files.length)
    .map(([words, files]) =>
      el(
        "li",
        {},
        el("span", { class: "nav-files-of" }, words),
        ...files.map(({ words: called, place }) =>
          el("button", { type: "button", class: "nav-link", click: () => open(place) }, called),
        ),
      ),
    );
  return el("ul", { class: "nav-files", hidden: !lines.length }, ...lines);
}

/** A line that tells what was done, what did not work, or that the desk lets one wait. */
function told() {
  const node = el("p", { class: "nav-done", role: "status", "aria-live": "polite" });
  /** @param {string} words @param {boolean} [bad] */
  const tell = (words, bad = false) => {
    node.textContent = words;
    node.classList.toggle("nav-bad", bad);
    if (words) node.scrollIntoView({ block: "nearest" });
  };
  /** @param {Reply} reply @returns {boolean} whether it was done */
  const reply = ({ trouble, says }) => {
    if (trouble || says) tell(trouble ?? says ?? "", Boolean(trouble));
    return !trouble;
  };
  const slow = el(
    "p",
    { class: "nav-trouble", role: "alert", hidden: true },
    say(
      "No answer yet. What was kept is safe on the disk. If nothing comes, the program behind " +
        "this page may have stopped: start it again.",
    ),
  );
  /** @param {boolean} is */
  const slowly = (is) => (slow.hidden = !is);
  return { node, slow, tell, reply, slowly };
}

/** Long work: a bar with words. @param {any} model */
function progressView(model) {
  const words = el("span", {});
  const meter = el("progress", { max: 1, "aria-label": say("How far it is") });
  const node = el("div", { class: "nav-progress-line", hidden: true }, meter, words);
  const show = () => {
    const now = model.get("progress");
    node.hidden = now.words === undefined;
    words.textContent = now.words ?? "";
    if (now.share !== undefined) meter.value = now.share;
  };
  model.on("change:progress", show);
  return { node, close: () => model.off("change:progress", show) };
}

/** @param {string} name @returns {any} what this browser keeps for the coach under a name */
function remembered(name) {
  try {
    return JSON.parse(localStorage.getItem(`nav-coach-${name}`) ?? "null");
  } catch {
    return null;
  }
}

/** @param {string} name @param {any} value  null forgets it */
function remember(name, value) {
  try {
    if (value === null) localStorage.removeItem(`nav-coach-${name}`);
    else localStorage.setItem(`nav-coach-${name}`, JSON.stringify(value));
  } catch {
    // A browser that keeps nothing forgets it; what was entered is on the disk.
  }
}
