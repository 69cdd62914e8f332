/* The ways between lessons: links, the browser's Back, and the heading that a link asks for.
 *
 * A link is an ordinary one, such as bearings.ipynb#Practice; JupyterLab alone would open it too,
 * but not bring its heading into view, and would lose the way back. Behind a second # stands the
 * card that is meant below the heading: bearings.ipynb#Ten-exercises#bearings/exercise/3.
 */

/* So many lessons stay open, each with a program of its own behind it. */
const KEPT_OPEN = 3;

const SETTLED_MS = 2000;

/* The notebook that an address on this server leads to, as a path and a heading in it. */
export function target(address) {
  const url = new URL(address, location.href);
  const path = /\/(?:files|tree)\/(.+\.ipynb)$/.exec(url.pathname)?.[1];
  if (!path || url.origin !== location.origin) return null;
  return { path: decodeURIComponent(path), heading: decodeURIComponent(url.hash.slice(1)) };
}

/* The address of a heading in a notebook, opened in the way that this page was. */
function here({ path, heading }) {
  const url = new URL(location.href);
  url.pathname = url.pathname.replace(/\/tree\/.*$/, `/tree/${encodeURI(path)}`);
  url.search = "";
  url.hash = heading;
  return url.href;
}

/* JupyterLab notes each notebook shown as a step forward, even one that Back has just led to or
 * that is shown already; such a step would take the way back away. */
function keepWayBack() {
  const push = history.pushState.bind(history);
  history.pushState = (state, title, address) => {
    const url = new URL(address ?? "", location.href);
    if (url.pathname !== location.pathname) return push(state, title, address);
    url.hash ||= location.hash;
    history.replaceState(state, title, url);
  };
}

/* Bring a heading, or the card that is meant below it, to the top of the window and the keyboard to
 * it, and keep both there while the cells around it grow and JupyterLab settles; until the learner
 * does something. A card comes later than the headings: until then it is the heading. */
function land(panel, asked) {
  const { node } = panel.content;
  const [heading, place] = asked.split("#");
  const ends = ["wheel", "pointerdown", "keydown", "touchstart"];
  const show = () => {
    const found =
      (place && node.querySelector(`[data-nav-place="${CSS.escape(place)}"]`)) ||
      node.querySelector(`[data-jupyter-id="${CSS.escape(heading)}"]`);
    if (!found || !found.checkVisibility()) return;
    found.scrollIntoView({ block: "start" });
    found.setAttribute("tabindex", "-1");
    found.focus({ preventScroll: true });
  };
  const growing = new ResizeObserver(show);
  const settling = setInterval(show, 200);
  const end = () => {
    growing.disconnect();
    clearInterval(settling);
    ends.forEach((name) => window.removeEventListener(name, end, true));
  };
  ends.forEach((name) => window.addEventListener(name, end, true));
  panel.disposed.connect(end);
  setTimeout(() => clearInterval(settling), SETTLED_MS);
  for (const cell of panel.content.widgets) growing.observe(cell.node);
  show();
}

/* The lessons that are open, and the ways between them. */
export class Course {
  constructor({ commands, shell }, tracker, wake) {
    Object.assign(this, { commands, shell, wake });
    this.lessons = []; // the one shown last comes last
    const asked = target(location.href);
    keepWayBack();
    tracker.forEach((panel) => this.adopt(panel, asked));
    tracker.widgetAdded.connect((_, panel) => this.adopt(panel, asked));
    tracker.currentChanged.connect((_, panel) => this.came(panel));
    window.addEventListener("popstate", () => this.go(target(location.href)));
  }

  async adopt(panel, asked) {
    await panel.context.ready;
    if (panel.isDisposed || !panel.model.getMetadata("navlib")?.lesson) return;
    this.lessons.push(panel);
    panel.disposed.connect(() => (this.lessons = this.lessons.filter((one) => one !== panel)));
    this.wake(panel);
    this.links(panel);
    if (this.shell.isSideTabBarVisible?.("right")) this.shell.toggleSideTabBarVisibility("right");
    if (asked?.heading && asked.path === panel.context.path) land(panel, asked.heading);
  }

  /* A link from a lesson to another opens it in this page; asked for another window, there. */
  links(panel) {
    const { node } = panel.content;
    const link = (event) => {
      const found = event.target.closest("a[href]:not(.jp-InternalAnchorLink)");
      return [found, found && target(found.href)];
    };
    const aim = (event) => {
      const [found, to] = link(event);
      if (to) found.href = here(to);
    };
    const follow = (event) => {
      const [, to] = link(event);
      if (!to) return;
      event.stopPropagation();
      if (event.button || event.ctrlKey || event.metaKey || event.shiftKey) return;
      event.preventDefault();
      this.go(to);
    };
    for (const name of ["pointerdown", "focusin"]) node.addEventListener(name, aim, true);
    node.addEventListener("click", follow, true);
    node.addEventListener("nav-learner", () => this.close(this.lessons, panel));
  }

  async go(to) {
    const panel = to && (await this.commands.execute("docmanager:open", { path: to.path }));
    await panel?.context.ready;
    if (panel && to.heading) land(panel, to.heading);
  }

  /* Each open lesson has a program of its own behind it: the ones left longest ago are closed. */
  came(panel) {
    if (!this.lessons.includes(panel)) return;
    this.lessons = [...this.lessons.filter((one) => one !== panel), panel];
    this.close(this.lessons.slice(0, -KEPT_OPEN), panel);
  }

  close(lessons, but) {
    lessons.filter((one) => one !== but).forEach((one) => one.close());
  }
}
