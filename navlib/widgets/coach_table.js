// @ts-check
// Beside the marking form: answers out of a spreadsheet, and what the marks so far come to.

/**
 * Answers out of a spreadsheet: the table saved, and taken in again.
 * @param {ReturnType<typeof talk>} desk @param {ReturnType<typeof told>} line
 * @param {() => void} anew  what stands in the form may have changed
 */
function tableView(desk, line, anew) {
  const box = el("input", { type: "file", accept: ".csv,.txt,.tsv", hidden: true });
  const says = el("p", { class: "nav-hint", role: "status" });
  const problems = el("ul", { class: "nav-findings" });
  /** @param {File} file */
  async function take(file) {
    const bytes = new Uint8Array(await file.arrayBuffer());
    let text = "";
    for (let n = 0; n < bytes.length; n += 8192) {
      text += String.fromCharCode(...bytes.subarray(n, n + 8192));
    }
    const reply = await desk.ask("take_in", { data: btoa(text) });
    if (!line.reply(reply)) return;
    const { taken } = reply;
    const aside = taken.kept ? say("Mend these in {file}, and take that in.", { file: taken.kept }) : "";
    says.textContent = [taken.says, aside].filter(Boolean).join(" ");
    problems.replaceChildren(
      ...taken.problems.map((/** @type {string} */ words) =>
        el("li", { class: "nav-missing" }, words),
      ),
      ...taken.notes.map((/** @type {string} */ words) => el("li", {}, words)),
    );
    anew();
  }
  box.addEventListener("change", () => {
    const [given] = box.files ?? [];
    if (given) take(given).finally(() => (box.value = ""));
  });
  const node = el(
    "details",
    { class: "nav-drop" },
    el("summary", { tabindex: 0 }, say("Enter them in a spreadsheet instead")),
    el(
      "p",
      {},
      say("Save the table, fill in a row for each candidate, and take it in. Or drop it here."),
    ),
    el(
      "div",
      { class: "nav-actions" },
      button(say("Save the table"), () => desk.ask("table").then(line.reply)),
      button(say("Take in a table…"), () => box.click()),
      box,
    ),
    says,
    problems,
  );
  node.addEventListener("dragover", (/** @type {DragEvent} */ event) => event.preventDefault());
  node.addEventListener("drop", (/** @type {DragEvent} */ event) => {
    event.preventDefault();
    event.stopPropagation();
    const [file] = event.dataTransfer?.files ?? [];
    if (file) take(file);
  });
  return { node };
}

/** @param {FormFace} form @returns {string} */
function totalWords(form) {
  const { total: marks, out_of: of, pass_mark: pass, left, parts } = form;
  if (!marks) return say("{parts} answers to enter. {pass} of {of} marks to pass.", { parts, pass, of });
  const sum = left
    ? say("{marks} of {of} marks so far, {pass} to pass.", { marks, of, pass })
    : say("{marks} of {of} marks, {pass} to pass.", { marks, of, pass });
  const more = [];
  if (left) more.push(say("{left} of {parts} answers to enter.", { left, parts }));
  else if (form.passed !== null) more.push(form.passed ? say("Pass.") : say("Not yet a pass."));
  if (form.undecided) more.push(say("You decide on up to {n}.", { n: form.undecided }));
  if (form.notation) more.push(say("{n} lost for units, once.", { n: form.notation }));
  if (form.suggested) more.push(say("{n} for working are only suggested.", { n: form.suggested }));
  return [sum, ...more].join(" ");
}
