// @ts-check
// Taking part without a class server: the session comes as a file, and a file is handed in.

/** @typedef {{file: string, title: string, name: string, seat: string}} Begun */

/**
 * A seat at the desk behind this page.
 * @param {any} model @param {ReturnType<typeof talk>} desk
 */
function fileSeat(model, desk) {
  const { shown, seat, session } = model.get("taking");
  const kept = keptHere(`file/${session.id}/${seat}/${shown}`);
  /** @type {(() => void)[]} */
  const watching = [];
  /** @type {Record<number, Picture | null>} */
  const pictures = {};
  /** @type {Refused[]} */
  let refused = [];
  let at = model.get("taking").question?.id ?? 0;
  const show = () => watching.forEach((tell) => tell());
  const waiting = () => kept.names("waiting/").map((name) => kept.get(name));

  /** @returns {Asked[]} */
  const asked = () => model.get("taking").questions;
  const question = () => asked().find(({ id }) => id === at) ?? null;

  async function fetchPicture() {
    const now = question();
    if (!now?.has_picture || now.id in pictures) return;
    const { picture } = await desk.ask("picture", { question: now.id });
    pictures[now.id] = picture ?? null;
    show();
  }

  /** @param {Sent} sent */
  async function send(sent) {
    const { trouble } = await desk.ask("hand in", { ...sent });
    kept.put(`waiting/${sent.key}`, null);
    if (trouble) refused = [...refused, { ...sent, says: trouble }];
    show();
  }

  model.on("change:taking", show);
  for (const sent of waiting()) void send(sent);
  void fetchPicture();
  return {
    kept,
    asked,
    at: () => at,
    /** @param {number} id */
    goTo(id) {
      at = id;
      show();
      void fetchPicture();
    },
    /** @returns {Taking} */
    now: () => ({
      shown,
      seat,
      session: { id: session.id, title: session.title, clock: null, ended: session.ended },
      question: question(),
      picture: pictures[at] ?? null,
      waiting: waiting(),
      refused,
      line: "fine",
      ahead: 0,
      keeps: true,
      comes: false,
      left: false,
    }),
    /** @param {() => void} tell */
    watch: (tell) => void watching.push(tell),
    /** @param {number} id @param {Record<string, string>} answers @param {Record<string, any>} lies */
    handIn(id, answers, lies) {
      const key = unique("answer");
      const sent = { key, question: id, answers, lies, given: new Date().toISOString() };
      kept.put(`waiting/${key}`, sent);
      show();
      void send(sent);
    },
    /** @param {string} key */
    drop(key) {
      refused = refused.filter((one) => one.key !== key);
      show();
    },
    close: () => model.off("change:taking", show),
  };
}

/** Which question one works on. @param {ReturnType<typeof fileSeat>} seat */
function whichView(seat) {
  const node = el("nav", { class: "nav nav-which", "aria-label": say("Questions") });
  function show() {
    const asked = seat.asked();
    node.hidden = asked.length < 2;
    const held = node.contains(document.activeElement);
    node.replaceChildren(
      ...asked.map(({ id, mine }) => {
        const words = mine ? say("Question {number}, answered", { number: id }) : say("Question {number}", { number: id });
        return button(mine ? `${id} ✓` : String(id), () => seat.goTo(id), {
          "aria-label": words,
          "aria-current": seat.at() === id ? "step" : null,
        });
      }),
    );
    if (held) /** @type {any} */ (node.querySelector("[aria-current]"))?.focus();
  }
  seat.watch(show);
  show();
  return node;
}

/** The file that is handed in. @param {ReturnType<typeof fileSeat>} seat @param {ReturnType<typeof talk>} desk */
function handInView(seat, desk) {
  const words = el("p", {});
  const said = told();
  const save = button(say("Save the file to hand in"), async () => {
    const reply = await desk.ask("file");
    if (said.reply(reply)) said.tell(say("Saved as {name}. Give it to your instructor.", { name: reply.file?.name ?? "" }));
  });
  const node = el("section", { class: "nav nav-hand-in" }, words, el("div", { class: "nav-actions" }, save), said.node);
  function show() {
    const asked = seat.asked();
    const done = asked.filter(({ mine }) => mine).length;
    words.textContent = say("{done} of {of} questions are answered, and kept on this computer.", { done, of: asked.length });
  }
  seat.watch(show);
  show();
  return node;
}

/**
 * Where one begins: the session file, one's name and seat.
 * @param {Begun | null} last  what was begun here before @param {(begun: Begun) => Promise<string>} begin
 */
function beginView(last, begin) {
  const file = field(say("Session file"), el("input", { type: "file", accept: ".json,application/json" }), {});
  const name = field(say("Your name"), textBox({ maxlength: 60, value: last?.name }));
  const seat = field(say("Your seat"), textBox({ inputmode: "numeric", maxlength: 4, value: last?.seat }));
  const trouble = el("p", { class: "nav-trouble", role: "alert", hidden: true });
  const start = button(say("Begin"), fromFile, { class: "nav-button nav-first" });
  const goOn = last
    ? button(say("Go on with “{title}” as {name}, seat {seat}", { ...last }), () => go(last))
    : null;

  /** @param {Begun} begun */
  async function go(begun) {
    trouble.textContent = await begin(begun);
    trouble.hidden = !trouble.textContent;
  }

  async function fromFile() {
    const [chosen] = file.box.files;
    if (chosen) return go({ file: await chosen.text(), title: "", name: name.box.value, seat: seat.box.value });
    trouble.textContent = say("Choose the file that your instructor gave you. Its name ends with “.class.json”.");
    trouble.hidden = false;
    file.box.focus();
  }

  const boxes = el("div", { class: "nav-fields" }, file.node, name.node, seat.node);
  const node = el("div", {}, boxes, el("div", { class: "nav-actions" }, start, goOn), trouble);
  node.addEventListener("keydown", (/** @type {KeyboardEvent} */ event) => {
    if (event.key === "Enter" && event.target instanceof HTMLInputElement && event.target.type === "text") void fromFile();
  });
  return node;
}

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const known = keptHere("file");
  const said = told();
  const desk = talk(model, said.slowly);
  const place = el("div", { class: "nav-taking" });
  let over = () => {};

  /** @param {Begun} begun @returns {Promise<string>} what is wrong, or nothing */
  async function begin(begun) {
    const { trouble } = await desk.ask("begin", begun);
    if (trouble) return trouble;
    known.put("last", { ...begun, title: model.get("taking").session.title });
    take();
    return "";
  }

  function take() {
    over();
    const seat = fileSeat(model, desk);
    const end = takePart(place, seat, handInView(seat, desk));
    place.prepend(whichView(seat));
    over = () => {
      seat.close();
      end();
    };
  }

  const page = model.get("page");
  const way = page
    ? el(
        "p",
        {},
        say("Your class has a server: you take part on its own page, and need no file."),
        " ",
        el("a", { href: page }, say("Go to the class’s page")),
      )
    : null;
  const form = beginView(known.get("last"), begin);
  const again = el("details", { class: "nav nav-begin-session", open: true }, el("summary", {}, say("Session file, name and seat")), form);
  const card = way ? el("section", { class: "nav" }, way) : null;
  root.append(...[card, again, said.slow, place].filter((part) => part !== null));
  if (model.get("taking").session) take();
  const fold = () => (again.open = !model.get("taking").session);
  model.on("change:taking", fold);
  fold();
  return () => {
    over();
    desk.close();
    model.off("change:taking", fold);
  };
}

export default { render };
