// @ts-check
// The chart table as a widget of its own: a sheet to work on, moved by hand or from Python.

/** @param {{model: any, el: HTMLElement}} context */
function render({ model, el: root }) {
  const heading = unique("table");
  const title = el("div", { class: "nav-title", id: heading, role: "heading", "aria-level": 3 });
  const place = el("figure", { class: "nav-sheet" });
  const card = el(
    "section",
    { class: "nav nav-wide nav-chart-table", "aria-labelledby": heading },
    title,
    place,
  );
  /** @type {ReturnType<typeof workedOn> | null} */
  let table = null;
  let sent = "";

  function show() {
    title.textContent = model.get("title");
    title.hidden = !title.textContent;
    table?.close();
    table = workedOn(model.get("picture"), {
      moved(lies) {
        sent = JSON.stringify(lies);
        model.set("lies", lies);
        model.save_changes();
      },
      enlarge: (large) => card.classList.toggle("nav-large", large),
    });
    place.replaceChildren(table.node);
    if (Object.keys(model.get("lies")).length) table.lay(model.get("lies"));
  }

  function lay() {
    // What comes back from Python as it was sent moves nothing.
    if (JSON.stringify(model.get("lies")) !== sent) table?.lay(model.get("lies"), true);
  }

  model.on("change:picture change:title", show);
  model.on("change:lies", lay);
  root.append(card);
  show();
  return () => {
    table?.close();
    model.off("change:picture change:title", show);
    model.off("change:lies", lay);
  };
}

export default { render };
