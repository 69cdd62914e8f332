// @ts-check
// What stands above the question: which session, who and where one sits, the clock, and the line.

/** @param {Taking} taking @returns {string} what is to be told of the line to the class, or nothing */
function lineWords({ line, waiting, keeps }) {
  const count = waiting.length;
  if (line === "out") return say("You are not logged in here any more. What you sent is kept on this device.");
  if (count && !keeps)
    return say("Leave this page open: this browser keeps nothing, and what you sent has not arrived yet.");
  if (count && line === "down")
    return count === 1
      ? say("Your answer is kept on this device, and will be sent when the network is back.")
      : say("{count} answers are kept on this device, and will be sent when the network is back.", { count });
  if (line === "down") return say("No connection to the class just now. Go on working: what you send is kept here.");
  if (count > 1) return say("{count} answers are kept on this device, and are being sent.", { count });
  return "";
}

/** @param {Seat} seat */
function headView(seat) {
  const title = el("div", { class: "nav-title nav-class-title", role: "heading", "aria-level": 1 });
  const who = el("div", { class: "nav-class-who" });
  const clock = clockView();
  const words = el("span", {});
  const again = button(say("Come in again"), () => seat.comeIn?.(), { hidden: true });
  const line = el("p", { class: "nav-line", role: "status", "aria-live": "polite" }, words, again);
  const refused = el("div", { class: "nav-refused" });
  const node = el(
    "header",
    { class: "nav nav-class-head" },
    el("div", { class: "nav-class-top" }, title, who, clock.node),
    line,
    refused,
  );

  /** @param {Taking} taking */
  function show(taking) {
    title.textContent = taking.session?.title ?? say("The class");
    who.textContent =
      taking.seat === null ? taking.shown : say("{name}, seat {seat}", { name: taking.shown, seat: taking.seat });
    clock.set(taking.session?.ended ? null : (taking.session?.clock ?? null), taking.ahead);
    const told = lineWords(taking);
    if (words.textContent !== told) words.textContent = told;
    line.classList.toggle("nav-line-shown", Boolean(told));
    again.hidden = taking.line !== "out";
    const keys = taking.refused.map(({ key }) => key).join();
    if (refused.dataset.keys === keys) return;
    refused.dataset.keys = keys;
    refused.replaceChildren(...taking.refused.map(refusal));
  }

  /** @param {Refused} answer */
  const refusal = ({ key, answers, says }) =>
    el(
      "p",
      { class: "nav-trouble", role: "alert" },
      say("Your answer “{answer}” was not taken: {says}", {
        answer: Object.values(answers).filter(Boolean).join(", "),
        says,
      }),
      " ",
      button(say("I have read it"), () => seat.drop?.(key)),
    );

  return { node, show, close: clock.close };
}
