// @ts-check
// The projector: large, to be read from the back of the room, and driven by a few keys.

const STATES = {
  planned: say("Not open yet"),
  open: say("Open for answers"),
  closed: say("Closed"),
  revealed: say("Revealed"),
};
/** How large words may be against the usual, in hundredths: what is short is shown larger. */
const LARGEST = 150;
const SMALLEST = 40;
const COMPLAINT_MS = 6000;

/** Keys that matter to this window alone. @type {Key[]} */
const OWN_KEYS = [
  { keys: ["f"], name: "F", action: "full", words: say("full screen"), about: say("take the full screen, or leave it") },
  { keys: ["?"], name: "?", action: "keys", words: say("keys"), about: say("show these keys, or put them away") },
];

/** @param {{model: any, el: HTMLElement, host: any}} context */
function render({ model, el: root, host }) {
  /** @type {Partial<ScreenFace>} */
  let face = {};
  let verdicts = false;
  let shownQuestion = 0;
  /** @type {ReturnType<typeof sheetImage> | null} */
  let sheet = null;
  let shownSheet = "";
  let lastSaid = "";
  let complaint = "";
  let forgetting = 0;

  const desk = talk(model, (slow) => set(section, { "data-slow": slow ? "true" : null }));
  const evening = el("p", { class: "nav-evening" });
  const name = el("div", { class: "nav-title", role: "heading", "aria-level": 1 });
  const clock = clockView(say("Time left"));
  const main = el("div", { class: "nav-main" });
  const demo = el("div", { class: "nav-demo-room", hidden: true });
  const trouble = el("p", { class: "nav-trouble", role: "alert", hidden: true });
  const state = el("span", { class: "nav-asked-is" });
  const count = el("span", { class: "nav-count-in" });
  const allKeys = [...KEYS, ...OWN_KEYS];
  const help = el("p", { class: "nav-help-line" }, ...helpLine(allKeys));
  const card = el(
    "div",
    { class: "nav-key-card", role: "dialog", "aria-label": say("Keys"), hidden: true },
    el("p", { class: "nav-lead" }, say("Keys")),
    keysView(allKeys),
  );
  const full = button(say("Full screen"), fullScreen);
  const fill = button(say("Back to the page"), () => spread(!section.classList.contains("nav-fills")));
  const live = el("div", { class: "nav-live", role: "status", "aria-live": "polite" });
  const board = el(
    "div",
    { class: "nav-board" },
    el("header", {}, el("div", {}, evening, name), clock.node),
    trouble,
    main,
    demo,
    el("footer", {}, el("p", { class: "nav-counted" }, state, count)),
    el("div", { class: "nav-foot-line" }, help, el("div", { class: "nav-screen-buttons" }, full, fill)),
    card,
    live,
  );
  const section = el(
    "section",
    { class: "nav nav-wide nav-projector", tabindex: 0, "aria-label": say("Projector") },
    board,
  );

  // What is seen ------------------------------------------------------------------------------------

  function update() {
    face = model.get("face");
    const { question = null, segment = null, next = null } = face;
    const view = viewOf(face);
    if (question?.id !== shownQuestion || view !== "pair") verdicts = false;
    shownQuestion = question?.id ?? 0;
    set(section, { "data-view": view });
    name.textContent = face.ended ? "" : segment ? segment.title || SORTS[segment.what] : question ? question.title : "";
    clock.node.hidden = !segment || Boolean(face.ended);
    if (face.clock) clock.set(face.clock);
    trouble.textContent = complaint || model.get("trouble");
    trouble.hidden = !trouble.textContent;
    demo.hidden = view !== "demonstration";
    main.hidden = view === "demonstration";
    takeSheet();
    const inside = VIEWS[view]({ face, sheet: sheet?.node ?? null, verdicts });
    main.replaceChildren(...inside.filter((one) => one !== null));
    const asked = question !== null && !face.ended && view !== "break";
    state.textContent = asked ? STATES[/** @type {keyof STATES} */ (question.state)] ?? "" : "";
    count.replaceChildren(...(asked ? [cameIn(question), marksView(question.in, question.joined)] : []));
    const called = next && !face.ended && view !== "break" ? next.title || SORTS[next.what] : "";
    evening.textContent = called
      ? say("{title}. Next: {next}", { title: face.title ?? "", next: called })
      : face.title ?? "";
    tell([name.textContent, state.textContent].join(". "));
    fit();
  }

  /** @param {string} words  said aloud when it changes */
  function tell(words) {
    if (words === lastSaid) return;
    lastSaid = words;
    live.textContent = words;
  }

  function takeSheet() {
    const picture = face.question?.picture ? model.get("picture") : null;
    const now = picture?.svg ?? "";
    if (now === shownSheet) return;
    shownSheet = now;
    sheet?.close();
    sheet = picture?.svg ? sheetImage(picture) : null;
    sheet?.node.querySelector("img").addEventListener("load", fit);
  }

  /** What is shown is as large as all of it finds room on the screen. */
  function fit() {
    const room = main.hidden ? demo : main;
    for (let size = LARGEST; size >= SMALLEST; size -= 5) {
      room.style.setProperty("--fit", String(size / 100));
      if (room.scrollHeight <= room.clientHeight + 1 && room.scrollWidth <= room.clientWidth + 1) return;
    }
  }

  // The demonstration --------------------------------------------------------------------------------

  /** @type {AbortController | null} */
  let showing = null;
  async function demonstrate() {
    showing?.abort();
    demo.replaceChildren();
    const wanted = model.get("demonstration");
    if (!wanted) return;
    const now = (showing = new AbortController());
    const room = el("div", {});
    demo.append(room);
    const widget = await host.getWidget(wanted);
    if (!now.signal.aborted) await widget.render({ el: room, signal: now.signal });
    fit();
  }

  // What is asked for --------------------------------------------------------------------------------

  /** @param {string} action */
  async function act(action) {
    if (action === "full") return fullScreen();
    if (action === "keys") return void (card.hidden = !card.hidden);
    if (action === "reveal" && face.question?.pair) {
      verdicts = !verdicts;
      return update();
    }
    const [deed, given] = deedOf(action, face.clock);
    const reply = await desk.ask("deed", { deed, given });
    complain(reply.trouble ?? "");
  }

  /** What could not be done stands there long enough to be read. @param {string} words */
  function complain(words) {
    complaint = words;
    window.clearTimeout(forgetting);
    if (words) forgetting = window.setTimeout(() => complain(""), COMPLAINT_MS);
    update();
  }

  function fullScreen() {
    if (document.fullscreenElement) document.exitFullscreen();
    else section.requestFullscreen?.().catch(() => complain(say("This browser does not give the full screen.")));
  }

  /** @param {boolean} over  whether it fills the window */
  function spread(over) {
    section.classList.toggle("nav-fills", over);
    fill.textContent = over ? say("Back to the page") : say("Fill the window");
    section.focus({ preventScroll: true });
    fit();
  }

  /** @param {KeyboardEvent} event */
  function pressed(event) {
    const { target } = event;
    if (!(target instanceof Element) || target.closest(".jp-Dialog, .lm-Menu")) return;
    // Where it fills the window there is nothing else that a key could be meant for.
    if (!section.classList.contains("nav-fills") && !section.contains(target)) return;
    if (event.key === "Escape" && !card.hidden) return void (card.hidden = true);
    const key = keyed(event, allKeys);
    if (!key) return;
    event.preventDefault();
    event.stopPropagation();
    act(key.action);
  }

  function screenChanged() {
    const on = document.fullscreenElement === section;
    full.textContent = on ? say("Leave full screen") : say("Full screen");
    fill.hidden = on;
    fit();
  }

  const growing = new ResizeObserver(fit);
  window.addEventListener("keydown", pressed, true);
  document.addEventListener("fullscreenchange", screenChanged);
  model.on("change:face change:picture change:trouble", update);
  model.on("change:demonstration", demonstrate);
  root.append(section);
  growing.observe(section);
  spread(true);
  update();
  demonstrate();
  desk.ask("time").then(({ moment }) => moment && clock.tell(moment));
  return () => {
    showing?.abort();
    sheet?.close();
    clock.close();
    desk.close();
    growing.disconnect();
    window.clearTimeout(forgetting);
    window.removeEventListener("keydown", pressed, true);
    document.removeEventListener("fullscreenchange", screenChanged);
    model.off("change:face change:picture change:trouble", update);
    model.off("change:demonstration", demonstrate);
  };
}

/** @param {Key[]} keys @returns {(Node | string)[]} */
const helpLine = (keys) => keys.flatMap(({ name, words }) => [el("span", {}, el("kbd", {}, name), ` ${words}`), " "]);

export default { render };
