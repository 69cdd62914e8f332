// @ts-check
// The form in which a session is planned: a plan to begin with, changed, kept and printed.

const REST_MS = 350;
const KEPT_AS = "session-plan";

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {PlanFace} */
  let face = model.get("face");
  let resting = 0;
  let turn = 0;
  let over = "";
  let busy = false;

  const line = told();
  const desk = talk(model, line.slowly);
  const progress = progressView(model);

  /** @param {Settings} [settings] */
  const lines = (settings = {}) => el("textarea", { rows: 3, ...settings });
  const begin = field(say("Begin with"), el("select"), { name: "nav-long" });
  const ownFile = el("input", { type: "file", accept: ".yaml,.yml", hidden: true });
  const title = field(say("Title"), textBox({ maxlength: 120 }), { name: "nav-long" });
  const topic = field(say("Topic"), el("select"));
  const minutes = field(say("Minutes there are"), textBox({ inputmode: "numeric", maxlength: 4 }));
  const start = field(say("It begins at"), textBox({ class: "nav-figure", value: "19:00", maxlength: 5 }));
  const goals = field(say("At the end they can (a line each)"), lines(), { name: "nav-long" });
  const bring = field(say("To bring (a line each)"), lines(), { name: "nav-long" });
  const caution = field(say("A caution, to be said aloud"), lines({ rows: 2, maxlength: 600 }), {
    name: "nav-long",
  });
  const name = field(say("Name of the file"), textBox({ maxlength: 60 }));
  const seats = field(say("Learners"), textBox({ inputmode: "numeric", value: "12", maxlength: 7 }));
  const number = field(
    say("Session number"),
    textBox({ class: "nav-session-number", maxlength: 12, placeholder: say("a new one") }),
  );
  const segments = segmentsEditor(face, () => topic.box.value, changed);
  const sum = sumView(() => face.whats);
  /** @type {[string, ReturnType<typeof field>][]} places as the desk calls them */
  const fields = [
    ["title", title],
    ["topic", topic],
    ["minutes", minutes],
    ["goals", goals],
    ["bring", bring],
    ["caution", caution],
    ["name", name],
  ];
  const general = el("p", { class: "nav-wrong-line", id: unique("wrong"), hidden: true });
  const where = el("p", { class: "nav-hint" });

  topic.box.replaceChildren(
    el("option", { value: "" }, say("several topics")),
    ...face.topics.map((one) => el("option", { value: one.topic }, one.title)),
  );
  const save = button(say("Save among your plans"), saving, { class: "nav-button nav-first" });
  const section = el(
    "section",
    { class: "nav nav-coach nav-wide nav-session-plan", "aria-label": say("Plan a session") },
    heading(3, say("Plan a session")),
    el(
      "div",
      { class: "nav-begin" },
      begin.node,
      button(say("A file of your own…"), () => ownFile.click()),
      ownFile,
    ),
    el(
      "div",
      { class: "nav-two" },
      el(
        "div",
        { class: "nav-form" },
        el("div", { class: "nav-fields" }, title.node, topic.node, minutes.node, start.node),
        general,
        heading(4, say("Parts of the session")),
        segments.node,
        heading(4, say("Goals, and what to have ready")),
        el("div", { class: "nav-fields" }, goals.node, bring.node, caution.node),
      ),
      sum.node,
    ),
    el(
      "div",
      { class: "nav-make" },
      heading(4, say("Keep it and print it")),
      el("div", { class: "nav-fields" }, name.node, save),
      where,
      el(
        "div",
        { class: "nav-fields nav-printing" },
        button(say("Print the plan"), () => print("page")),
        seats.node,
        number.node,
        button(say("Print work cards"), () => print("cards")),
        button(say("Print the key to them"), () => print("key")),
      ),
      el(
        "p",
        { class: "nav-hint" },
        say(
          "Work cards are for a class without computers: own values for each seat, sheets at true " +
            "scale. With the same session number a seat has the same values on a screen.",
        ),
      ),
      progress.node,
      line.node,
      line.slow,
    ),
  );

  const read = () => ({
    ...Object.fromEntries(fields.map(([place, { box }]) => [place, box.value])),
    segments: segments.read(),
  });

  /** @param {Record<string, any>} draft @param {Summed} [summed] */
  function write(draft, summed) {
    for (const [place, { box }] of fields) box.value = draft[place] ?? "";
    segments.write(draft.segments);
    remember(KEPT_AS, { draft, over });
    if (summed) show(summed);
    else reckon();
  }

  /** @param {Summed} summed */
  function show(summed) {
    const { problems } = summed;
    /** @param {string} place */
    const at = (place) =>
      problems.filter((one) => one.place === place).map((one) => one.says).join(" ");
    for (const [place, { box }] of [...fields, /** @type {const} */ (["start", start])]) {
      const wrong = at(place);
      set(box, {
        "aria-invalid": wrong ? "true" : null,
        "aria-describedby": wrong ? general.id : null,
      });
    }
    segments.tell((n) => at(`segment ${n}`), summed.times);
    const inBoxes = problems.filter((one) => !one.place.startsWith("segment "));
    general.textContent = inBoxes.map((one) => one.says).join(" ");
    general.hidden = !general.textContent;
    sum.show(summed);
  }

  function changed() {
    remember(KEPT_AS, { draft: read(), over });
    window.clearTimeout(resting);
    resting = window.setTimeout(reckon, REST_MS);
  }

  async function reckon() {
    const mine = ++turn;
    const reply = await desk.ask("reckon", { draft: read(), start: start.box.value });
    if (mine === turn && line.reply(reply)) show(reply.reckoned);
  }

  /** @param {string} action @param {Record<string, any>} content @param {string} [from] */
  async function take(action, content, from = "") {
    const reply = await desk.ask(action, { ...content, start: start.box.value });
    if (!line.reply(reply)) return;
    line.tell("");
    over = face.own.some((one) => one.source === from) ? from : "";
    write(reply.draft, reply.reckoned);
  }

  async function saving() {
    const reply = await desk.ask("save", { draft: read(), over });
    if (!line.reply(reply)) return;
    over = reply.source;
    begin.box.value = over;
    remember(KEPT_AS, { draft: read(), over });
  }

  /** @param {string} action */
  async function print(action) {
    if (busy) return;
    busy = true;
    line.tell("");
    const reply = await desk.ask(action, {
      draft: read(),
      start: start.box.value,
      seats: seats.box.value,
      number: number.box.value,
    });
    busy = false;
    if (line.reply(reply) && reply.number) number.box.value = reply.number;
  }

  function update() {
    face = model.get("face");
    /** @param {Offered[]} plans @returns {[string, string][]} */
    const options = (plans) => plans.map(({ source, words }) => [source, words]);
    begin.box.replaceChildren(
      el("option", { value: "" }, say("what stands below")),
      optionGroup(say("Ready made"), options(face.ready)),
      ...(face.own.length ? [optionGroup(say("Your own"), options(face.own))] : []),
    );
    begin.box.value = over;
    where.textContent = say("Your plans are kept in {folder}.", { folder: face.folder });
  }

  begin.box.addEventListener("change", () => {
    const from = begin.box.value;
    if (from) take("take", { source: from }, from);
  });
  ownFile.addEventListener("change", async () => {
    const [given] = ownFile.files ?? [];
    ownFile.value = "";
    if (!given) return;
    await take("read", { file: given.name, text: await given.text() });
    begin.box.value = "";
  });
  for (const { box } of [title, topic, minutes, start, goals, bring, caution, name])
    box.addEventListener("input", changed);
  model.on("change:face", update);
  root.append(section);
  update();
  const kept = remembered(KEPT_AS);
  if (kept?.draft?.segments) {
    over = face.own.some((one) => one.source === kept.over) ? kept.over : "";
    begin.box.value = over;
    write(kept.draft);
  } else {
    begin.box.value = face.first;
    take("take", { source: face.first });
  }
  return () => {
    window.clearTimeout(resting);
    desk.close();
    progress.close();
    model.off("change:face", update);
  };
}

export default { render };
