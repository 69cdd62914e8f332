// @ts-check
// The segments in the form of a plan, one after another, and what each of them asks or shows.

/** @typedef {{what: string, minutes: string, title: string, notes: string, demonstration: string,
 *   kind: string, own: boolean, tell: boolean}} DraftSegment */
/** @typedef {{topic: string, title: string, kinds: {kind: string, title: string, level: number}[],
 *   shown: [string, string][]}} PlanTopic */
/** @typedef {{source: string, words: string}} Offered */
/** @typedef {{ready: Offered[], own: Offered[], folder: string, first: string,
 *   whats: [string, string][], topics: PlanTopic[]}} PlanFace */

const ALONE = "work alone";
const ASKS = [ALONE, "vote"];
const SHOWS = "demonstrate";

/** @param {string} label @param {[string, string][]} options */
const optionGroup = (label, options) =>
  el("optgroup", { label }, ...options.map(([value, words]) => el("option", { value }, words)));

/** @param {PlanFace} face @param {() => string} topic  of the whole plan, its questions come first */
function kindChoice(face, topic) {
  const box = el("select", { "aria-label": say("Question") });
  return {
    box,
    /** @param {string} chosen */
    fill(chosen) {
      const first = topic();
      const topics = [...face.topics].sort(
        (a, b) => Number(b.topic === first) - Number(a.topic === first),
      );
      box.replaceChildren(
        el("option", { value: "" }, say("Choose a question…")),
        ...topics.map((one) =>
          optionGroup(
            one.title,
            one.kinds.map(({ kind, title, level }) => [
              kind,
              `${"●".repeat(level)}${"○".repeat(3 - level)} ${title}`,
            ]),
          ),
        ),
      );
      box.value = chosen;
      if (box.selectedIndex < 0) box.selectedIndex = 0;
    },
  };
}

/** @param {PlanFace} face @param {string} chosen */
function shownChoice(face, chosen) {
  const box = el(
    "select",
    { "aria-label": say("Demonstration") },
    el("option", { value: "" }, say("shown by hand")),
    ...face.topics.map((one) => optionGroup(one.title, one.shown)),
  );
  box.value = chosen;
  return box;
}

/** @param {PlanFace} face @param {() => string} topic @param {() => void} changed */
function segmentsEditor(face, topic, changed) {
  /** @param {DraftSegment} segment */
  function make(segment) {
    const what = choice(face.whats, { "aria-label": say("What the class does") });
    const minutes = textBox({ "aria-label": say("Minutes"), inputmode: "numeric", maxlength: 4 });
    const title = textBox({ "aria-label": say("Title of the part"), maxlength: 120 });
    const kind = kindChoice(face, topic);
    const shown = shownChoice(face, segment.demonstration);
    const own = tick(say("own values"));
    const tell = tick(say("told at once"));
    const notes = el("textarea", {
      rows: 2,
      maxlength: 1000,
      "aria-label": say("Notes: what to say and to watch"),
      placeholder: say("Notes: what to say, what to watch"),
    });
    const asks = el("div", { class: "nav-asks" }, kind.box, shown, own.node, tell.node);
    const node = el("div", { class: "nav-plan-part" }, what, minutes, title, asks, notes);

    function sorted() {
      const alone = what.value === ALONE;
      kind.box.hidden = !ASKS.includes(what.value);
      own.node.hidden = tell.node.hidden = !alone;
      shown.hidden = what.value !== SHOWS;
      asks.hidden = kind.box.hidden && shown.hidden;
      set(node, { "data-what": what.value });
    }

    [what.value, minutes.value, title.value] = [segment.what, segment.minutes, segment.title];
    kind.fill(segment.kind);
    notes.value = segment.notes;
    own.box.checked = segment.own;
    tell.box.checked = segment.tell;
    sorted();
    kind.box.addEventListener("focus", () => kind.fill(kind.box.value));
    what.addEventListener("change", sorted);
    node.addEventListener("input", changed);
    return {
      node,
      first: what,
      read: () => ({
        what: what.value,
        minutes: minutes.value,
        title: title.value,
        notes: notes.value,
        demonstration: shown.value,
        kind: kind.box.value,
        own: own.box.checked,
        tell: tell.box.checked,
      }),
    };
  }
  const plain = { title: "", notes: "", demonstration: "", kind: "", own: true, tell: false };
  return listEditor({
    add: say("Add a part"),
    make,
    fresh: () => ({ ...plain, what: ALONE, minutes: "10" }),
    what: (n) => say("part {n}", { n }),
    changed,
    ordered: true,
    inserts: true,
  });
}
