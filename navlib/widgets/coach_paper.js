// @ts-check
// The form in which a paper is set: a blueprint to begin with, changed, weighed and made.

const REST_MS = 350;
const RESIT = "resit:";

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  /** @type {PaperFace} */
  let face = model.get("face");
  /** @type {Record<string, any>} what the form does not show of its draft */
  let rest = {};
  let resting = 0;
  let turn = 0;
  let of = "";
  let ready = false;
  let busy = false;
  let ownFolder = false;

  const line = told();
  const desk = talk(model, line.slowly);
  const progress = progressView(model);

  const begin = el("select");
  const own = el("input", { type: "file", accept: ".yaml,.yml", hidden: true });
  const title = field(say("Title"), textBox({ maxlength: 200 }), { name: "nav-long" });
  const minutes = field(say("Minutes"), textBox({ inputmode: "numeric" }));
  const pass = field(say("Pass mark"), textBox({ inputmode: "numeric" }));
  const notation = field(say("Notation marks (for units left out)"), textBox({ inputmode: "numeric" }));
  const from = field(say("Days of the questions, from"), el("input", { type: "date" }));
  const to = field(say("to"), el("input", { type: "date" }));
  const tools = field(say("Instruments allowed, with commas between"), textBox(), {
    name: "nav-long",
  });
  const centre = field(say("Your centre, for the cover"), textBox({ maxlength: 80 }));
  const note = field(say("A note for the cover"), textBox({ maxlength: 600 }), { name: "nav-long" });
  const sheets = sheetsEditor(face, changed);
  const rows = rowsEditor(face, changed);
  const plan = planView();
  /** @type {[string, ReturnType<typeof field>][]} places as the desk calls them */
  const fields = [
    ["title", title],
    ["minutes", minutes],
    ["pass mark", pass],
    ["notation marks", notation],
    ["from", from],
    ["to", to],
    ["instruments", tools],
  ];
  const general = el("p", { class: "nav-wrong-line", id: unique("wrong"), hidden: true });

  const count = field(say("How many papers"), textBox({ inputmode: "numeric", value: "12" }));
  const sitting = field(say("Name of the sitting"), textBox({ maxlength: 60, value: "first" }));
  const folder = field(say("Folder"), textBox(), { name: "nav-long" });
  const large = tick(say("in large print too"));
  const web = tick(say("as web pages too, for screen readers"));
  const make = button(say("Make the papers"), making, { class: "nav-button nav-first" });
  const files = el("div", { class: "nav-made", hidden: true });
  const resitNote = el(
    "p",
    { class: "nav-hint", hidden: true },
    say(
      "A resit keeps the blueprint and the secret of its first sitting: so each paper is as hard " +
        "as before and asks something else.",
    ),
  );

  const more = el(
    "details",
    { class: "nav-more-fields" },
    el("summary", { tabindex: 0 }, say("Dates, instruments, cover, units")),
    el(
      "div",
      { class: "nav-fields" },
      ...[from, to, notation, tools, centre, note].map((one) => one.node),
    ),
  );
  const form = el(
    "div",
    { class: "nav-form" },
    el("div", { class: "nav-fields" }, title.node, minutes.node, pass.node),
    general,
    heading(4, say("Questions")),
    rows.node,
    heading(4, say("Sheets that go with it")),
    sheets.node,
    more,
  );
  const beginField = field(say("Begin with"), begin);
  const section = el(
    "section",
    { class: "nav nav-coach nav-wide", "aria-label": say("Set a paper") },
    heading(3, say("Set a paper")),
    el(
      "div",
      { class: "nav-begin" },
      beginField.node,
      button(say("A file of your own…"), () => own.click()),
      button(say("Save this blueprint"), () => desk.ask("save", { draft: read() }).then(line.reply)),
      own,
    ),
    resitNote,
    el("div", { class: "nav-two" }, form, plan.node),
    el(
      "div",
      { class: "nav-make" },
      heading(4, say("Make it")),
      el("div", { class: "nav-fields" }, count.node, sitting.node, folder.node),
      el("div", { class: "nav-ticks" }, large.node, web.node),
      el("div", { class: "nav-actions" }, make),
      progress.node,
      line.node,
      line.slow,
      files,
    ),
  );

  function read() {
    return {
      ...rest,
      ...Object.fromEntries(fields.map(([name, { box }]) => [name, box.value])),
      words: { ...rest.words, centre: centre.box.value, note: note.box.value },
      sheets: sheets.read(),
      rows: rows.read(),
    };
  }

  /** @param {Record<string, any>} draft @param {Reckoned} [reckoned] */
  function write(draft, reckoned) {
    rest = draft;
    for (const [name, { box }] of fields) box.value = draft[name] ?? "";
    centre.box.value = draft.words?.centre ?? "";
    note.box.value = draft.words?.note ?? "";
    sheets.write(draft.sheets);
    rows.write(draft.rows);
    remember("draft", of ? null : draft);
    if (reckoned) show(reckoned);
    else reckon();
    suggest();
  }

  /** @param {Reckoned} reckoned */
  function show(reckoned) {
    const { problems, plan: found } = reckoned;
    const inBoxes = problems.filter((one) => !/^(row|sheet) /.test(one.place));
    /** @param {...string} places */
    const at = (...places) =>
      problems.filter((one) => places.includes(one.place)).map((one) => one.says).join(" ");
    for (const [name, { box }] of fields) {
      const wrong = at(name, ...(name === "from" || name === "to" ? ["days"] : []));
      set(box, {
        "aria-invalid": wrong ? "true" : null,
        "aria-describedby": wrong ? general.id : null,
      });
    }
    rows.tell((n) => at(`row ${n}`), found?.rows ?? null);
    sheets.tell((n) => at(`sheet ${n}`), null);
    general.textContent = inBoxes.map((one) => one.says).join(" ");
    general.hidden = !general.textContent;
    if (at("days", "from", "to", "notation marks", "instruments", "words")) more.open = true;
    plan.show(reckoned);
    ready = Boolean(found?.ready) && !problems.length;
    set(make, { "aria-disabled": !ready || busy ? "true" : null });
  }

  function changed() {
    remember("draft", of ? null : read());
    window.clearTimeout(resting);
    resting = window.setTimeout(reckon, REST_MS);
  }

  async function reckon() {
    const mine = ++turn;
    const reply = await desk.ask("reckon", { draft: read() });
    if (mine === turn && line.reply(reply)) show(reply.reckoned);
  }

  async function suggest() {
    if (ownFolder) return;
    const name = of ? "resit" : (rest.name ?? "");
    const reply = await desk.ask("folder", { name, sitting: sitting.box.value });
    if (reply.folder && !ownFolder) folder.box.value = reply.folder;
  }

  /** @param {string} action @param {Record<string, any>} content */
  async function take(action, content) {
    const reply = await desk.ask(action, content);
    if (!line.reply(reply)) return;
    line.tell("");
    ownFolder = false;
    of = action === "resit" ? content.of : "";
    form.toggleAttribute("inert", Boolean(of));
    resitNote.hidden = !of;
    sitting.box.value = of ? "resit" : "first";
    write(reply.draft, reply.reckoned);
  }

  async function anew() {
    if (busy) return;
    busy = true;
    line.tell("");
    line.reply(await desk.ask("print", { large: large.box.checked, html: web.box.checked }));
    busy = false;
  }

  async function making() {
    if (busy) return;
    if (!ready) {
      line.tell(say("First mend what is marked in the form."), true);
      return;
    }
    busy = true;
    line.tell("");
    set(make, { "aria-disabled": "true" });
    const reply = await desk.ask("make", {
      draft: read(),
      of,
      count: count.box.value,
      sitting: sitting.box.value,
      folder: folder.box.value,
      large: large.box.checked,
      html: web.box.checked,
    });
    busy = false;
    set(make, { "aria-disabled": null });
    if (!line.reply(reply)) return;
    ownFolder = false;
    suggest();
  }

  function showFiles() {
    const open = (/** @type {string} */ place) => desk.ask("open", { place }).then(line.reply);
    files.replaceChildren(...filesOf(face, open, anew));
    files.hidden = !face.files.length;
  }

  function update() {
    face = model.get("face");
    const held = begin.value;
    const resits = face.sittings.map(({ path, words }) =>
      el("option", { value: RESIT + path }, words),
    );
    begin.replaceChildren(
      el("option", { value: "" }, say("what stands below")),
      el(
        "optgroup",
        { label: say("Ready made") },
        ...face.blueprints.map(({ name, words }) => el("option", { value: name }, words)),
      ),
      ...(resits.length ? [el("optgroup", { label: say("A resit of") }, ...resits)] : []),
    );
    begin.value = held;
    showFiles();
  }

  begin.addEventListener("change", () => {
    if (begin.value.startsWith(RESIT)) take("resit", { of: begin.value.slice(RESIT.length) });
    else if (begin.value) take("take", { name: begin.value });
  });
  own.addEventListener("change", async () => {
    const [given] = own.files ?? [];
    own.value = "";
    if (!given) return;
    await take("read", { file: given.name, text: await given.text() });
    begin.value = "";
  });
  for (const [, { box }] of fields) box.addEventListener("input", changed);
  for (const { box } of [centre, note]) box.addEventListener("input", changed);
  sitting.box.addEventListener("change", suggest);
  folder.box.addEventListener("input", () => (ownFolder = Boolean(folder.box.value)));
  model.on("change:face", update);
  root.append(section);
  update();
  const draft = remembered("draft");
  if (draft?.rows && draft?.sheets) write(draft);
  else {
    begin.value = face.first;
    take("take", { name: face.first });
  }
  return () => {
    window.clearTimeout(resting);
    desk.close();
    progress.close();
    model.off("change:face", update);
  };
}

export default { render };
