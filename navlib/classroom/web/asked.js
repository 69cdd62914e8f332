// @ts-check
// The question as its learner has it: words, sheet, boxes, and what became of the answer.

/** @typedef {{read: boolean, says: string[], outcome?: Outcome}} Told */
/** @typedef {{id: number, state: string, tell: boolean, title: string, text: string,
 *   has_picture: boolean, table: Table | null, parts: Omit<Part, "value">[],
 *   mine: null | {answers: Record<string, string>, at: string, tries: number, counted: boolean,
 *   parts: Record<string, Told>},
 *   reveal: null | {working: string[], parts: Record<string, {answer: string, band: string}>,
 *   key: Record<string, any[]>}}} Asked */

/** @param {string} at  a moment in UTC @returns {string} the time of day here */
const timeOfDay = (at) => new Date(at).toLocaleTimeString([], { hour: "2-digit", minute: "2-digit" });

/**
 * @param {Asked} asked @param {boolean} open  whether answers are taken
 * @returns {string} what became of the answer, in a sentence
 */
function becameWords({ mine, state }, open) {
  if (!mine) return open ? "" : say("You sent no answer to this question.");
  const time = timeOfDay(mine.at);
  const told = Object.values(mine.parts);
  if (!mine.counted)
    return say("Sent at {time}, when the solution had been shown: it is kept, and does not count.", { time });
  if (state === "revealed") return say("Sent at {time}.", { time });
  if (told.some(({ read }) => !read) && open)
    return say("Sent at {time}, but not all of it can be read. Write it as the example shows, and send it again.", { time });
  if (!open) return say("Sent at {time}.", { time });
  if (told.every(({ outcome }) => outcome)) {
    const right = told.every(({ outcome }) => outcome === "right" || outcome === "carried");
    return right ? say("Sent at {time}.", { time }) : say("Sent at {time}. Mend it, and send it again.", { time });
  }
  return say("Sent at {time}. You will be told later whether it is right. Until then you can change it.", { time });
}

/** @param {string} line @returns {string} */
const onTheWay = (line) =>
  line === "fine" ? say("Sending it.") : say("Your answer is kept on this device until it can be sent.");

/**
 * What is drawn for an answer: of each pencil the last stroke, the others are construction.
 * @param {{drawn: string}[]} asked @param {Record<string, any>} lies
 */
function drawnLast(asked, lies) {
  const tools = asked.map(({ drawn }) => drawn).filter((tool) => tool && lies[tool]?.length);
  return Object.fromEntries(tools.map((tool) => [tool, lies[tool].slice(-1)]));
}

/** @param {Seat} seat */
function askedView(seat) {
  /** @type {Taking} */
  let taking = seat.now();
  let key = "";
  /** @type {ReturnType<typeof answerPart>[]} */
  let parts = [];
  /** @type {Picture | null} */
  let picture = null;

  const heading = unique("asked");
  const title = el("div", { class: "nav-title", id: heading, role: "heading", "aria-level": 2 });
  const coming = el("p", { class: "nav-coming", role: "status" });
  const text = el("div", { class: "nav-text" });
  const form = el("div", { class: "nav-parts" });
  const became = el("p", { class: "nav-summary", role: "status", "aria-live": "polite" });
  const handIn = button(say("Send"), send, { class: "nav-button nav-first" });
  const actions = el("div", { class: "nav-actions" }, handIn);
  const working = el("div", { class: "nav-working", role: "group", "aria-label": say("Worked solution") });
  const next = el("p", { class: "nav-next" });
  const node = el("section", { class: "nav nav-card nav-asked", "aria-labelledby": heading });
  const sheet = sheetView(
    (large) => node.classList.toggle("nav-large", large),
    () => {
      seat.kept.put(`lies/${key}`, sheet.lies());
      see();
    },
  );
  node.append(
    el("header", {}, title),
    el(
      "div",
      { class: "nav-body" },
      el("div", { class: "nav-asked-words" }, text),
      el("div", { class: "nav-sheet-place" }, coming, sheet.node),
      el("div", { class: "nav-ask" }, form, became, actions, working, next),
    ),
  );

  const read = () => Object.fromEntries(parts.map((part) => [part.name, part.read()]));
  const see = () => parts.forEach((part) => part.see(sheet.lies()));
  const edited = () => {
    seat.kept.put(`draft/${key}`, read());
    see();
  };

  function send() {
    const { question } = taking;
    if (!question || actions.hidden) return;
    const answers = read();
    const lies = drawnLast(question.parts, sheet.lies());
    const written = Object.values(answers).some((answer) => answer.trim());
    if (!written && !Object.keys(lies).length) {
      became.textContent = say("Write your answer first.");
      parts[0]?.focus();
      return;
    }
    seat.kept.put(`draft/${key}`, null);
    seat.handIn(question.id, answers, lies);
  }

  /** Put another question on the card, with what was begun on it. @param {Asked} asked @param {Sent[]} waiting */
  function begin(asked, waiting) {
    const sent = waiting.at(-1)?.answers;
    const draft = seat.kept.get(`draft/${key}`) ?? sent ?? {};
    parts = asked.parts.map((part) => {
      const made = answerPart({ ...part, value: "" }, { enter: send, edited });
      // What was drawn comes back on the sheet, not as words that would count before it.
      made.write(draft[part.name] ?? (part.drawn ? "" : asked.mine?.answers[part.name]) ?? "");
      return made;
    });
    form.replaceChildren(...parts.map((part) => part.node));
    title.textContent = asked.title;
    text.replaceChildren(...paragraphs(asked.text), ...tableView(asked.table));
    showPictured(node, asked.has_picture);
    sheet.take(asked.parts.find((part) => part.drawn)?.drawn ?? "");
    picture = null;
    sheet.show(null);
  }

  /** @param {Asked} asked */
  function showSheet(asked) {
    coming.textContent = asked.has_picture && !taking.picture ? say("Your sheet is on its way.") : "";
    if (picture === taking.picture) return;
    picture = taking.picture;
    sheet.show(picture);
    const lies = seat.kept.get(`lies/${key}`);
    if (picture && lies) sheet.lay(lies);
    see();
  }

  /** @param {Asked} asked */
  function showWorking({ reveal, parts: asked }) {
    working.hidden = !reveal;
    if (!reveal) return working.replaceChildren();
    sheet.key(reveal.key);
    const told = asked.map(({ name, prompt, options }) => {
      const { answer, band } = reveal.parts[name];
      const values = { prompt, answer, band };
      return el("p", {}, options ? say("{prompt}: {answer}", values) : say("{prompt}: {answer}, within {band}", values));
    });
    const lines = reveal.working.map((words) => el("li", {}, words));
    working.replaceChildren(
      el("div", { class: "nav-working-title" }, say("Worked solution")),
      ...told,
      el("ol", {}, ...lines),
    );
  }

  function show() {
    taking = seat.now();
    const { question: asked, session } = taking;
    node.hidden = !asked;
    if (!asked || !session) {
      key = "";
      return;
    }
    const waiting = taking.waiting.filter(({ question }) => question === asked.id);
    const open = asked.state === "open" && !session.ended;
    const now = `${session.id}/${asked.id}`;
    if (now !== key) {
      key = now;
      begin(asked, waiting);
    }
    showSheet(asked);
    sheet.done(!open);
    for (const part of parts) {
      part.close(!open);
      const told = waiting.length ? undefined : asked.mine?.parts[part.name];
      if (told?.outcome) part.tell({ outcome: told.outcome, says: told.says });
      else part.tell(told && !told.read ? { outcome: "unread", says: told.says } : undefined);
    }
    const words = waiting.length ? onTheWay(taking.line) : becameWords(asked, open);
    if (became.textContent !== words) became.textContent = words;
    actions.hidden = !open;
    handIn.textContent = asked.mine || waiting.length ? say("Send again") : say("Send");
    showWorking(asked);
    next.textContent = taking.comes ? nextWords(asked.state, session.ended) : "";
  }

  return { node, show, close: sheet.close };
}

/** @param {string} state @param {boolean} ended @returns {string} what to wait for */
function nextWords(state, ended) {
  if (ended) return "";
  if (state === "closed") return say("No more answers are taken. Wait: the solution comes here by itself.");
  if (state === "revealed") return say("The next question comes here by itself.");
  return "";
}
