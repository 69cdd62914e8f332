// @ts-check
// The instructor's desk: a session is begun, driven and looked after here. For the instructor's eyes.

/** @typedef {{server: boolean, folder: string, unread: {file: string, why: string}[],
 *   plans: PlanRow[], sessions: SessionRow[], run: RunFace | null}} DeskFace */

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {DeskFace} */
  let face = model.get("face");
  const line = told();
  const desk = talk(model, line.slowly);
  let ahead = 0;

  /** @type {Ask} */
  async function ask(action, content = {}) {
    const reply = await desk.ask(action, content);
    line.reply(reply);
    if (!reply.trouble && !reply.says) line.tell("");
    return reply;
  }
  /** @param {string} deed @param {Record<string, any>} [given] */
  const act = (deed, given = {}) => ask("deed", { deed, given });

  const trouble = el("p", { class: "nav-trouble", role: "alert", hidden: true });
  const waiting = el("p", { class: "nav-hint" }, say("One moment: looking for your class…"));
  const start = startView(async (action, content) => {
    const reply = await ask(action, content);
    if (reply.trouble || action === "end") return;
    start.clear();
    section.focus({ preventScroll: true });
  });

  // The session that runs -----------------------------------------------------------------------------

  const name = heading(3, "");
  const clock = clockView(say("Time left"));
  const joined = el("p", { class: "nav-hint" });
  /** @type {Record<string, any>} */
  const buttons = {};
  for (const { action, name: key, words } of KEYS) {
    buttons[action] = button("", () => act(...deedOf(action, face.run?.face.clock)), {
      class: "nav-button",
      "aria-keyshortcuts": key,
    });
    buttons[action].append(el("span", {}, words), el("kbd", { "aria-hidden": "true" }, key));
    // A hand on the mouse leaves the keys to the desk, not to the button that it pressed.
    buttons[action].addEventListener("click", (/** @type {MouseEvent} */ event) => {
      if (event.detail) section.focus({ preventScroll: true });
    });
  }
  buttons.next.classList.add("nav-first");
  const names = button(say("Names on the projector"), () => act("names"));
  const again = button(say("Ask it again with other numbers"), () => act("again"));
  const seat = field(say("Seat"), textBox({ inputmode: "numeric", maxlength: 4, size: 3 }));
  const showSeat = button(say("Show this seat’s numbers"), () =>
    act("seat", { n: Number.parseInt(seat.box.value, 10) || null }),
  );
  const segments = segmentsView(ask);
  const asked = askedView();
  const people = peopleView(ask, () => Date.now() - ahead);
  const outside = askView(act, model.get("kinds"));
  const ending = endView(ask);
  const number = el("p", { class: "nav-hint" });
  const file = button(say("Session file for learners"), () => ask("file"));
  const folder = el("p", { class: "nav-hint" });
  const unread = el("ul", { class: "nav-findings" });
  const drive = el("div", { class: "nav-actions nav-drive" }, ...KEYS.map(({ action }) => buttons[action]));
  const deeds = el("div", { class: "nav-fields nav-more-deeds" }, file, names, again, seat.node, showSeat);
  const run = el(
    "div",
    { class: "nav-driving" },
    el("header", {}, el("div", {}, name, joined), clock.node),
    drive,
    el("div", { class: "nav-columns" }, segments.node, asked.node, people.node),
    deeds,
    outside,
    el("div", { class: "nav-without" }, folder, unread),
    number,
    ending.node,
  );
  const section = el(
    "section",
    {
      class: "nav nav-coach nav-wide nav-session-desk",
      tabindex: -1,
      "aria-label": say("The instructor’s desk"),
    },
    trouble,
    line.node,
    line.slow,
    waiting,
    start.node,
    run,
  );

  /** @param {RunFace} now */
  function updateRun(now) {
    const { question, clock: time, joined: count, segment, ended } = now.face;
    name.textContent = now.session.title;
    joined.textContent = ended
      ? say("{learners}. This session has ended.", { learners: learnersWords(count) })
      : segment
      ? say("{learners}. Segment {n} of {of}: {title}", {
          learners: learnersWords(count),
          n: segment.n + 1,
          of: segment.of,
          title: segment.title || SORTS[segment.what],
        })
      : learnersWords(count);
    clock.set(time);
    clock.node.hidden = !segment || ended;
    for (const one of [drive, deeds, outside, ending.end]) one.hidden = ended;
    buttons.clock.querySelector("span").textContent = time.ends ? say("stop the clock") : say("start the clock");
    for (const action of ["open", "close", "reveal", "spread", "pair"]) {
      set(buttons[action], { "aria-disabled": question ? null : "true" });
    }
    const state = question?.state;
    set(buttons.open, { "aria-pressed": state === "open" ? "true" : "false" });
    set(buttons.reveal, { "aria-pressed": state === "revealed" ? "true" : "false" });
    set(buttons.spread, { "aria-pressed": question?.spread || question?.choices ? "true" : "false" });
    set(buttons.pair, { "aria-pressed": question?.pair ? "true" : "false" });
    set(names, { "aria-pressed": question?.people ? "true" : "false" });
    seat.node.hidden = showSeat.hidden = !question?.own;
    again.hidden = !question;
    number.textContent = say(
      "The number of this session is {number}: begin another with it, and every seat has the same values again.",
      { number: now.session.number },
    );
    segments.update(now);
    asked.update(now);
    people.update(now, face.server);
  }

  function update() {
    face = model.get("face");
    trouble.textContent = model.get("trouble");
    trouble.hidden = !trouble.textContent;
    const known = Boolean(face.sessions);
    waiting.hidden = known || Boolean(trouble.textContent);
    start.node.hidden = !known || Boolean(face.run);
    run.hidden = !face.run;
    if (!known) return;
    start.update(face.sessions, face.plans);
    if (face.run) updateRun(face.run);
    file.hidden = face.server;
    folder.textContent = face.server
      ? face.run
        ? say("Learners come in by the address that the class server printed when it began. The class word: {word}", {
            word: face.run.face.word,
          })
        : say("Learners come in by the address and the class word that the class server printed when it began.")
      : say("Learners’ files go into this folder: {folder}", { folder: face.folder });
    unread.replaceChildren(
      ...face.unread.map(({ file: called, why }) =>
        el("li", { class: "nav-missing" }, say("{file} could not be read: {why}", { file: called, why })),
      ),
    );
  }

  /** @param {KeyboardEvent} event */
  function pressed(event) {
    if (!face.run || event.defaultPrevented) return;
    const key = keyed(event);
    if (!key) return;
    event.preventDefault();
    event.stopPropagation();
    act(...deedOf(key.action, face.run.face.clock));
  }

  section.addEventListener("keydown", pressed);
  model.on("change:face change:trouble", update);
  root.append(section);
  update();
  desk.ask("time").then(({ moment }) => {
    if (!moment) return;
    ahead = Date.now() - Date.parse(moment);
    clock.tell(moment);
  });
  return () => {
    clock.close();
    desk.close();
    model.off("change:face change:trouble", update);
  };
}

/**
 * A question outside the plan.
 * @param {(deed: string, given: Record<string, any>) => Promise<Reply>} act
 * @param {{title: string, kinds: [string, string][]}[]} topics
 */
function askView(act, topics) {
  const groups = topics.map(({ title, kinds }) =>
    el("optgroup", { label: title }, ...kinds.map(([value, words]) => el("option", { value }, words))),
  );
  const kind = field(say("Question"), el("select", {}, ...groups), { name: "nav-long" });
  const own = tick(say("everybody has own numbers"));
  const tell = tick(say("tell each one at once whether it is right"));
  own.box.checked = true;
  const press = button(say("Ask it now"), () =>
    act("ask", { kind: kind.box.value, own: own.box.checked, tell: tell.box.checked }),
  );
  return el(
    "details",
    { class: "nav-outside" },
    el("summary", { tabindex: 0 }, say("A question outside the plan")),
    el("div", { class: "nav-fields" }, kind.node),
    el("div", { class: "nav-ticks" }, own.node, tell.node),
    el("div", { class: "nav-actions" }, press),
  );
}

/** Ending needs a second word. @param {Ask} ask */
function endView(ask) {
  const yes = button(say("Yes, end it"), () => {
    asking.hidden = true;
    ask("deed", { deed: "end", given: {} });
  });
  const no = button(say("No, go on"), () => {
    asking.hidden = true;
    end.focus();
  });
  const asking = el(
    "div",
    { class: "nav-actions", role: "group", "aria-label": say("Are you sure?"), hidden: true },
    el("span", {}, say("End the session for everybody?")),
    yes,
    no,
  );
  const end = button(say("End the session…"), () => {
    asking.hidden = false;
    no.focus();
  });
  const leave = button(say("Other sessions"), () => ask("leave"));
  return { end, node: el("div", { class: "nav-ending" }, el("div", { class: "nav-actions" }, leave, end), asking) };
}

export default { render };
