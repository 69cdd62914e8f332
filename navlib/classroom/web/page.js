// @ts-check
// The class server's page: a seat, the way to one's own lessons, and what is kept about oneself.

/** What came of an answer, afterwards. @type {Record<Outcome, string>} */
const CAME = {
  right: say("right"),
  carried: say("right, from an earlier answer"),
  near: say("close"),
  wrong: say("not right"),
  unread: say("could not be read"),
};

/** What the learner may have and have deleted. @param {ReturnType<typeof classSeat>} seat */
function ownData(seat) {
  const told = el("p", { class: "nav-done", role: "status", "aria-live": "polite" });
  const list = el("ul", { class: "nav-mine" });
  const save = button(say("Save it as a file"), saved);
  const start = button(say("Delete it"), () => sure(1));
  const asking = el("div", { class: "nav-asking", role: "alertdialog", hidden: true });
  const node = el(
    "details",
    { class: "nav nav-own", toggle: () => node.open && look() },
    el("summary", {}, say("What is kept about me")),
    told,
    list,
    el("div", { class: "nav-actions" }, save, start),
    asking,
  );
  /** @type {any} */
  let mine = null;

  async function look() {
    told.textContent = "";
    const { status, content } = await seat.ask("GET", "mine");
    mine = status === 200 ? content : null;
    for (const one of [save, start]) one.hidden = !mine;
    list.replaceChildren(...(mine?.answers ?? []).map(line));
    if (!mine) told.textContent = say("It cannot be had just now. Try again when the network is back.");
    else if (!mine.answers.length) told.textContent = say("Your name, and no answers.");
  }

  /** @param {any} answer */
  function line({ at, position, answers, outcomes }) {
    const values = {
      when: new Date(at).toLocaleString([], { dateStyle: "short", timeStyle: "short" }),
      number: position,
      answer: Object.values(answers).filter(Boolean).join(", "),
    };
    const words = say("{when}, question {number}: {answer}", values);
    const came = Object.values(outcomes ?? {}).map((one) => CAME[/** @type {Outcome} */ (one)]);
    return el("li", {}, words, came.length ? el("span", { class: "nav-came" }, ` (${came.join("; ")})`) : null);
  }

  function saved() {
    const address = URL.createObjectURL(new Blob([JSON.stringify(mine, null, 1)], { type: "application/json" }));
    const link = el("a", { href: address, download: "class-answers.json" });
    document.body.append(link);
    link.click();
    link.remove();
    window.setTimeout(() => URL.revokeObjectURL(address), 60_000);
  }

  /** Ask twice before anything is deleted. @param {number} time */
  function sure(time) {
    const words =
      time === 1
        ? say("Delete all your answers, and that you were here? Your instructor will not have them any more.")
        : say("It cannot be taken back. Delete it now?");
    const yes = time === 1 ? say("Yes, delete it") : say("Delete it for good");
    const no = button(say("No, keep it"), done);
    set(asking, { "aria-label": words });
    asking.replaceChildren(el("p", {}, words), no, " ", button(yes, () => (time === 1 ? sure(2) : forget())));
    asking.hidden = false;
    no.focus();
  }

  function done() {
    asking.hidden = true;
    start.focus();
  }

  async function forget() {
    done();
    const { status } = await seat.ask("DELETE", "mine");
    if (status !== 200) {
      told.textContent = say("It could not be deleted just now. Try again when the network is back.");
      return;
    }
    node.open = false;
    seat.forgotten();
  }

  return node;
}

/** @param {HTMLElement} root */
function page(root) {
  const { name = "", shown = "", pass = "", hub = "/hub/" } = root.dataset;
  const seat = classSeat({ name, shown, pass });
  const ways = el(
    "nav",
    { class: "nav-ways", "aria-label": say("Elsewhere") },
    el("a", { href: `${hub}spawn` }, say("My own lessons")),
    el("a", { href: `${hub}logout` }, say("I am not {name}: go out", { name: shown })),
  );
  takePart(root, seat, ownData(seat), ways);
}

const place = document.getElementById("class");
if (place) page(place);

export default { page };
