// @ts-check
// The start page. It shows what the desk says of the learner and tells the desk what is asked for.

const PATIENCE_MS = 6000;
const REST_MS = 700;

/** Requests after which lessons that are open show someone's work that is not there any more. */
const CHANGES = new Set(["choose", "forget", "delete", "take_in"]);

/** Let the browser save a file. @param {{name: string, text: string}} file */
function save({ name, text }) {
  const address = URL.createObjectURL(new Blob([text], { type: "application/json" }));
  const link = el("a", { href: address, download: name });
  document.body.append(link);
  link.click();
  link.remove();
  window.setTimeout(() => URL.revokeObjectURL(address), 10000);
}

/** What one learner typed and did not hand in is not for the next one's eyes. */
function dropDrafts() {
  try {
    for (const key of Object.keys(sessionStorage)) {
      if (/^nav-(draft|lies)-/.test(key)) sessionStorage.removeItem(key);
    }
  } catch {
    // A browser that keeps nothing has no drafts.
  }
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {StartPage} */
  let page = model.get("page");
  /** @type {null | {turn: string, action: string}} */
  let waiting = null;
  let slow = 0;
  let fresh = 0;
  let signed = "";

  const name = () => page.learner || say("Learner without a name");
  /** @param {number} count */
  const answers = (count) => (count === 1 ? say("one answer") : say("{count} answers", { count }));

  const trouble = el("p", { class: "nav-trouble", role: "alert", hidden: true });
  const note = el("p", { class: "nav-trouble", role: "note", hidden: true });
  const upper = el("div", { class: "nav-upper" });
  const done = el("p", { class: "nav-done", role: "status", "aria-live": "polite" });

  const kept = el("p");
  const file = el("p", { class: "nav-file" });
  const sign = el("input", { type: "text", maxlength: 60, autocomplete: "off" });
  const chosen = el("input", { type: "file", accept: ".json,application/json", hidden: true });
  const who = el("p");
  const others = el("select");
  const newcomer = el("input", { type: "text", maxlength: 60, autocomplete: "off" });
  const asked = el("p", { tabindex: -1 });
  const yes = button("", () => {
    const action = asking.dataset.action ?? "";
    stopAsking();
    act(action);
  });
  const no = button(say("No, keep it all"), () => {
    const back = asking.dataset.action === "delete" ? remove : forget;
    stopAsking();
    back.focus();
  });
  const asking = el(
    "div",
    { class: "nav-asking", role: "group", "aria-label": say("Are you sure?"), hidden: true },
    asked,
    el("div", { class: "nav-actions" }, no, yes),
  );

  const handIn = button(say("Hand in"), () => act("hand_in", { name: sign.value }));
  const choose = button(say("Choose"), () => act("choose", { name: others.value }));
  const add = button(say("Add"), () => {
    if (newcomer.value.trim()) act("choose", { name: newcomer.value });
    else tell(say("Write a name first."), true);
  });
  const remove = button(say("Delete my answers…"), () => ask("delete"));
  const forget = button("", () => ask("forget"));
  const choosing = boxRow(say("Someone who was here before"), others, choose);
  const title = unique("start");
  const yours = el(
    "div",
    { role: "region", "aria-labelledby": `${title}-answers` },
    headline(3, say("Your answers"), { id: `${title}-answers` }),
    kept,
    boxRow(say("Hand in a file: your name, for your instructor"), sign, handIn),
    el(
      "div",
      { class: "nav-actions" },
      button(say("Save a copy"), () => act("export")),
      button(say("Take in a copy…"), () => chosen.click()),
      remove,
    ),
    chosen,
    file,
  );
  const people = el(
    "div",
    { role: "region", "aria-labelledby": `${title}-people` },
    headline(3, say("Who is learning"), { id: `${title}-people` }),
    who,
    choosing,
    boxRow(say("Someone new: a name of your choosing"), newcomer, add),
    el("div", { class: "nav-actions" }, forget),
    el("p", { class: "nav-file" }, say("A name keeps answers apart. It does not lock them.")),
  );
  const lower = el("div", { class: "nav-lower" }, yours, people);
  const section = el(
    "section",
    { class: "nav nav-start nav-wide", "aria-label": say("Start page") },
    trouble,
    note,
    upper,
    done,
    asking,
    lower,
  );

  /** @param {string} words @param {boolean} [bad] */
  function tell(words, bad = false) {
    done.textContent = words;
    done.classList.toggle("nav-bad", bad);
    if (words) done.scrollIntoView({ block: "nearest" });
  }

  /** @param {string} action @param {Record<string, string>} [content] */
  function act(action, content = {}) {
    if (waiting && waiting.action !== "refresh") return; // what is pressed comes before a refresh
    waiting = { turn: unique("turn"), action };
    if (action !== "refresh") section.setAttribute("aria-busy", "true");
    window.clearTimeout(slow);
    slow = window.setTimeout(() => {
      waiting = null;
      section.removeAttribute("aria-busy");
      if (action === "refresh") return;
      tell(
        say(
          "No answer yet. Nothing is lost. If nothing comes, the program behind this page may " +
            "have stopped: start it again.",
        ),
        true,
      );
    }, PATIENCE_MS);
    model.send({ do: action, ...content, turn: waiting.turn });
  }

  /** @param {"delete" | "forget"} action */
  function ask(action) {
    asking.dataset.action = action;
    const values = { name: name(), answers: answers(page.kept) };
    asked.textContent =
      action === "delete"
        ? say(
            "This deletes all that is kept of {name}: {answers}, and with them where you stand, " +
              "your slips and your checkpoints. It cannot be undone. Save a copy first if you " +
              "may want them again.",
            values,
          )
        : say(
            "This forgets {name} on this computer: the name and {answers}, with standing, slips " +
              "and checkpoints. It cannot be undone. Save a copy first if they may be wanted again.",
            values,
          );
    yes.textContent =
      action === "delete" ? say("Yes, delete {answers}", values) : say("Yes, forget {name}", values);
    asking.hidden = false;
    tell("");
    asked.focus();
    asking.scrollIntoView({ block: "nearest" });
  }

  function stopAsking() {
    asking.hidden = true;
  }

  function showLower() {
    kept.textContent = page.kept
      ? say("On this computer, and nowhere else: {answers}.", { answers: answers(page.kept) })
      : say("Nothing is kept yet. What you answer will stay on this computer, and nowhere else.");
    file.textContent = say("The file: {file}", { file: page.file });
    if (page.sign !== signed || !sign.value) sign.value = signed = page.sign;
    who.textContent = page.learner
      ? say("{name} is learning now.", { name: page.learner })
      : say("No name is given. That is all you need if nobody else learns on this computer.");
    const names = page.others.map((one) =>
      el("option", { value: one }, one || say("Learner without a name")),
    );
    const held = others.value;
    others.replaceChildren(...names);
    if (page.others.includes(held)) others.value = held;
    choosing.hidden = !page.others.length;
    forget.hidden = !page.learner;
    forget.textContent = say("Forget {name}…", { name: page.learner });
    remove.hidden = !page.kept;
  }

  function show() {
    page = model.get("page");
    trouble.textContent = model.get("trouble");
    trouble.hidden = !trouble.textContent;
    lower.hidden = !page.topics;
    if (!page.topics) {
      upper.replaceChildren(wayTo("bearings.ipynb", say("Begin with the lesson on bearings")));
      return;
    }
    note.textContent = page.note;
    note.hidden = !page.note;
    const held = document.activeElement;
    const key = held instanceof HTMLElement && upper.contains(held) ? held.dataset.key : undefined;
    upper.replaceChildren(...upperView(page));
    if (key) {
      for (const link of upper.querySelectorAll("a")) {
        if (link.dataset.key === key) link.focus({ preventScroll: true });
      }
    }
    showLower();
  }

  /** @param {{turn: string, done: string, says?: string, trouble?: string, file?: any}} reply */
  function heard(reply) {
    if (!waiting || reply.turn !== waiting.turn) return;
    window.clearTimeout(slow);
    const { action } = waiting;
    waiting = null;
    section.removeAttribute("aria-busy");
    fresh = Date.now();
    if (action === "refresh") return;
    tell(reply.trouble ?? reply.says ?? "", Boolean(reply.trouble));
    if (reply.trouble) return;
    if (reply.file) save(reply.file);
    if (action === "choose") newcomer.value = "";
    if (action === "choose" || action === "forget") dropDrafts();
    if (CHANGES.has(action)) {
      section.dispatchEvent(new CustomEvent("nav-learner", { bubbles: true }));
    }
    // What was pressed may be gone with the one whom it was about.
    if (document.activeElement === document.body) (remove.hidden ? sign : remove).focus();
  }

  /** The learner comes back to the page: it may have grown old. */
  function refresh() {
    if (waiting || document.hidden || Date.now() - fresh < REST_MS || !section.checkVisibility()) return;
    fresh = Date.now();
    act("refresh");
  }

  chosen.addEventListener("change", async () => {
    const [given] = chosen.files ?? [];
    chosen.value = "";
    if (given) act("take_in", { text: await given.text() });
  });
  section.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Escape" && !asking.hidden) no.click();
  });
  const back = new IntersectionObserver((seen) => {
    if (seen.some((one) => one.isIntersecting)) refresh();
  });
  model.on("change:page change:trouble", show);
  model.on("msg:custom", heard);
  document.addEventListener("visibilitychange", refresh);
  window.addEventListener("focus", refresh);
  fresh = Date.now();
  root.append(section);
  back.observe(section);
  show();
  return () => {
    window.clearTimeout(slow);
    back.disconnect();
    document.removeEventListener("visibilitychange", refresh);
    window.removeEventListener("focus", refresh);
    model.off("change:page change:trouble", show);
    model.off("msg:custom", heard);
  };
}

export default { render };
