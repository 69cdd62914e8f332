// @ts-check
// The pencil, the eraser or a cord's end in the hand: what takes the next stroke on the bare sheet.

/** Who takes a stroke, in mm of sheet.
 * @typedef {{down: (x: number, y: number) => void, move: (x: number, y: number) => void,
 *   up: () => void, stop: () => void}} Stroke */

/**
 * A clear leaf over everything while the pencil is in the hand: it takes the next stroke.
 * `space.arm(stroke)` takes the pencil up, `space.arm(null)` lays it down.
 * @param {any} space @param {Size} size @param {(x: number, y: number) => [number, number]} spot
 */
function pen(space, size, spot) {
  const leaf = draw("rect", { class: "nav-leaf", width: size.width, height: size.height });
  /** @type {Stroke | null} */
  let stroke = null;
  let drawing = false;
  leaf.style.touchAction = "none";
  leaf.style.display = "block";
  leaf.addEventListener("pointerdown", (/** @type {PointerEvent} */ event) => {
    if (event.button !== 0) return;
    event.preventDefault();
    event.stopPropagation();
    leaf.setPointerCapture(event.pointerId);
    drawing = true;
    stroke?.down(...spot(event.clientX, event.clientY));
  });
  leaf.addEventListener("pointermove", (/** @type {PointerEvent} */ event) => {
    if (drawing) stroke?.move(...spot(event.clientX, event.clientY));
  });
  for (const end of ["pointerup", "pointercancel"]) {
    leaf.addEventListener(end, () => {
      if (drawing) stroke?.up();
      drawing = false;
    });
  }
  /** @param {Stroke | null} next */
  space.arm = (next) => {
    const old = stroke;
    stroke = next;
    drawing = false;
    if (next) space.append(leaf);
    else leaf.remove();
    if (old && old !== next) old.stop();
  };
}
