// Dragging points of the placement drawings: "point|right|down|word" through the hidden field, the next only after the last was drawn.
(() => {
  "use strict";
  let drag = null, count = 0;
  function send() {
    if (!drag || drag.waiting || !drag.next) return;
    const field = drag.view.querySelector("[data-place-value]");
    if (!field) return;
    const own = drag, word = String(++count);
    own.waiting = word;
    field.value = `${own.point}|${own.next.x.toFixed(4)}|${own.next.y.toFixed(4)}|${word}`;
    own.next = null;
    field.dispatchEvent(new Event("change", { bubbles: true }));
    // A word that was lost, for example with the link, must not end the drag.
    own.lost = setTimeout(() => { if (own.waiting === word) free(own); }, 1500);
  }
  function free(own) {
    clearTimeout(own.lost);
    own.waiting = null;
    if (own.next) { const held = drag; drag = own; send(); drag = own.ended ? held === own ? null : held : own; }
    else if (own.ended) own.watch.disconnect();
  }
  document.addEventListener("pointerdown", event => {
    const handle = event.target instanceof Element ? event.target.closest("[data-place-point]") : null, view = handle?.closest("[data-place-open]");
    if (!view || event.button !== 0) return;
    const own = drag = { view, point: handle.dataset.placePoint, pointer: event.pointerId, next: null, waiting: null, ended: false };
    own.watch = new MutationObserver(() => { if (own.waiting && view.dataset.placeSeen === own.waiting) free(own); });
    own.watch.observe(view, { attributes: true, attributeFilter: ["data-place-seen"] });
  });
  document.addEventListener("pointermove", event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const box = drag.view.getBoundingClientRect(), held = value => Math.max(0, Math.min(1, value));
    drag.next = { x: held((event.clientX - box.left) / box.width), y: held((event.clientY - box.top) / box.height) };
    send();
  });
  const end = event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const own = drag;
    send(); // the last place counts
    own.ended = true;
    if (!own.waiting && !own.next) own.watch.disconnect();
    drag = null;
  };
  document.addEventListener("pointerup", end);
  document.addEventListener("pointercancel", end);
})();
