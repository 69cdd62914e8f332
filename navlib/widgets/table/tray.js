// @ts-check
// The chart table: a sheet, a tray of instruments, and what lies where.

/**
 * @param {Picture} picture
 * @param {{moved: (lies: Record<string, any>) => void, enlarge?: (large: boolean) => void}} told
 */
function chartTable(picture, told) {
  /** @type {Record<string, any>} instruments made so far */
  const made = {};
  /** @type {string[]} those that lie on the sheet, the last taken last */
  let out = [];
  const tools = (picture.tools ?? []).filter((name) => name in TOOLS);
  const pencils = tools.filter((name) => !TOOLS[name].away);
  const whole = button(say("Whole sheet"), () => sheet.look(1), { hidden: true });
  const sheet = stage(picture, () => {
    for (const name of out) made[name].seen?.();
    whole.hidden = sheet.zoom() === 1;
  });
  sheet.node.classList.toggle("nav-read-only", !tools.length); // to be read, not worked on
  const live = el("div", { class: "nav-live", "aria-live": "polite" });
  const how = el("p", { class: "nav-how" });
  const keys = el(
    "details",
    { class: "nav-keys" },
    el("summary", { tabindex: 0 }, say("By keyboard")),
    el(
      "p",
      {},
      say(
        "Tab goes to the parts of an instrument, the arrow keys move them; hold Shift for small steps. Plus and minus bring the sheet closer and further, Ctrl and Z takes back.",
      ),
    ),
  );
  const panels = el("div", { class: "nav-panels" });
  /** @type {Top} */
  const top = {
    size: sheet.size,
    space: sheet.space,
    seen: sheet.seen,
    moved,
    edges: () => out.flatMap((name) => made[name].edges?.() ?? []),
    focus: (node) => (node ?? sheet.node).focus({ preventScroll: true }),
  };

  // What lies where -------------------------------------------------------------------------------

  /** @type {string[]} */
  const before = [];
  let last = "";
  let movedBy = { node: /** @type {any} */ (null), at: 0 };

  /** @param {string} text  the lies, which the page tells too */
  function remember(text) {
    last = text;
    sheet.node.dataset.lies = text;
  }

  /** @returns {Record<string, any>} */
  function lies() {
    const all = out.map((name) => [name, made[name].lie()]);
    return Object.fromEntries(all.filter(([, lie]) => lie !== null));
  }

  /** @param {boolean} [keyed]  arrow keys pressed one after the other are one movement */
  function moved(keyed = false) {
    const now = lies();
    const text = JSON.stringify(now);
    if (text === last) return;
    const by = { node: document.activeElement, at: performance.now() };
    const same = keyed && movedBy.node === by.node && by.at - movedBy.at < 1000;
    if (!same) before.push(last);
    movedBy = keyed ? by : { node: null, at: 0 };
    const was = JSON.parse(last);
    remember(text);
    speak(now, was);
    showTray();
    told.moved(now);
  }

  /** @param {Record<string, any>} now @param {Record<string, any>} was */
  function speak(now, was) {
    const changed = Object.keys(now).filter(
      (name) => JSON.stringify(now[name]) !== JSON.stringify(was[name]),
    );
    live.textContent = changed.map((name) => made[name].spoken()).join(" ");
  }

  function undo() {
    const text = before.pop();
    if (text === undefined) return;
    remember(text);
    const back = JSON.parse(text);
    lay(back);
    live.textContent = say("Taken back.");
    told.moved(back);
  }

  // Taking and putting away -----------------------------------------------------------------------

  /** @param {string} name */
  function bring(name) {
    made[name] ??= TOOLS[name].make(top);
    if (out.includes(name)) return;
    out.push(name);
    sheet.space.append(made[name].node);
  }

  /** @param {string} name */
  function drop(name) {
    out = out.filter((one) => one !== name);
    made[name].node.remove();
  }

  /** @param {string} name @param {boolean} keyed */
  function press(name, keyed) {
    const again = held === name;
    top.space.arm(null);
    if (again) return;
    if (!TOOLS[name].away) {
      bring(name);
      explain(name);
      made[name].press(keyed);
      if (!keyed) hold(name);
    } else if (out.includes(name)) {
      drop(name);
      explain(out.at(-1));
    } else {
      bring(name);
      if (!sheet.whole() || !before.length) made[name].take?.();
      explain(name);
    }
    showTray();
    moved();
  }

  /** @param {string | undefined} name */
  function explain(name) {
    how.textContent = name ? made[name].how : say("Take an instrument from the tray.");
    how.hidden = !tools.length;
  }

  // The tray ----------------------------------------------------------------------------------------

  /** @type {Record<string, any>} */
  const buttons = {};
  for (const name of tools) {
    buttons[name] = button(
      TOOLS[name].name,
      /** @type {any} */ ((/** @type {MouseEvent} */ event) => press(name, event.detail === 0)),
      { class: "nav-button nav-tool" },
    );
  }
  const eraser = button(say("Eraser"), () => erase(), { class: "nav-button nav-tool", title: say("Rub out pencil") });
  const back = button(say("Undo"), undo);
  const near = el(
    "div",
    { class: "nav-near" },
    button("−", () => sheet.look(sheet.zoom() / CLOSER), { "aria-label": say("Further from the sheet") }),
    button("+", () => sheet.look(sheet.zoom() * CLOSER), { "aria-label": say("Closer to the sheet") }),
    whole,
  );
  let held = "";
  /** @param {string} name  of what is in the hand until the next stroke */
  function hold(name) {
    held = name;
    sheet.node.dataset.held = name;
    showTray();
  }

  function showTray() {
    for (const name of tools) {
      const { take, away } = TOOLS[name];
      const taken = away ? out.includes(name) : held === name;
      buttons[name].classList.toggle("nav-taken", taken);
      set(buttons[name], { "aria-label": taken && away ? away : take, title: taken && away ? away : take });
    }
    const drawn = pencils.some((name) => out.includes(name) && made[name].lie());
    eraser.classList.toggle("nav-taken", held === "eraser");
    eraser.hidden = !pencils.length;
    set(eraser, { "aria-disabled": drawn ? null : "true" });
    set(back, { "aria-disabled": before.length ? null : "true" });
    const shown = out.flatMap((name) => made[name].panel ?? []);
    if (shown.length !== panels.children.length || shown.some((one, n) => one !== panels.children[n])) {
      panels.replaceChildren(...shown);
    }
  }

  const arm = sheet.space.arm;
  sheet.space.arm = (/** @type {any} */ stroke) => {
    hold("");
    arm(stroke);
  };

  function erase() {
    if (held === "eraser") return top.space.arm(null);
    /** @param {number} x @param {number} y */
    const rub = (x, y) => {
      const things = pencils.flatMap((name) => (out.includes(name) ? made[name].rubbing() : []));
      const under = things.find(({ drawn }) => offDrawn(drawn, [x, y]) < RUBBED_MM);
      under?.rub();
    };
    top.space.arm({ down: rub, move: rub, up() {}, stop() {} });
    hold("eraser");
  }

  const inTray = [...tools.map((name) => buttons[name]), eraser, back];
  const tray = el("div", { class: "nav-tools" }, ...(tools.length ? inTray : []));
  const bar = el("div", { class: "nav-sheet-buttons" }, tray, near);
  if (told.enlarge) {
    let large = false;
    const larger = button(say("Enlarge the sheet"), () => {
      large = !large;
      larger.textContent = large ? say("Sheet back to its size") : say("Enlarge the sheet");
      told.enlarge?.(large);
    });
    near.append(larger);
  }
  const node = el("div", { class: "nav-table-top" }, bar, sheet.node, panels, how, ...(tools.length ? [keys] : []), live);
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Escape" && held) top.space.arm(null);
    else if (event.key === "z" && (event.ctrlKey || event.metaKey) && !isTyping(event.target)) undo();
    else return;
    event.preventDefault();
    event.stopPropagation();
  });

  // From outside ------------------------------------------------------------------------------------

  /** @param {Record<string, any>} wanted */
  function lay(wanted) {
    for (const name of [...out]) {
      if (name in wanted) continue;
      if (TOOLS[name].away) drop(name);
      else made[name].lay(null);
    }
    for (const [name, lie] of Object.entries(wanted)) {
      if (!(name in TOOLS)) continue;
      bring(name);
      made[name].lay(lie);
    }
    showTray();
  }

  let gliding = 0;
  /**
   * Lay the instruments as given; with `glide` they move there, where motion is welcome.
   * @param {Record<string, any>} wanted @param {boolean} [glide]
   */
  function layAll(wanted, glide = false) {
    if (JSON.stringify(wanted) === last) return;
    cancelAnimationFrame(gliding);
    const from = lies();
    remember(JSON.stringify(wanted));
    const known = Object.keys(wanted).filter((name) => name in TOOLS);
    for (const name of known) bring(name);
    explain(known.find((name) => !(name in from)) ?? known[0]);
    if (!glide || matchMedia("(prefers-reduced-motion: reduce)").matches) return lay(wanted);
    const start = performance.now();
    const frame = () => {
      const part_ = Math.min((performance.now() - start) / GLIDE_MS, 1);
      lay(part_ < 1 ? between(from, wanted, part_ * part_ * (3 - 2 * part_)) : wanted);
      if (part_ < 1) gliding = requestAnimationFrame(frame);
    };
    frame();
  }

  if (tools[0] === "protractor") bring("protractor");
  explain(out[0]);
  remember(JSON.stringify(lies()));
  showTray();
  return {
    node,
    sheet,
    lies,
    lay: layAll,
    close() {
      cancelAnimationFrame(gliding);
      sheet.close();
    },
  };
}

/** @param {EventTarget | null} node */
const isTyping = (node) => node instanceof HTMLInputElement;
