// Drawing an outline: a tap on the grid adds a corner, a drag moves one. Words go through the hidden field, the next place of a drag only after the
// server has drawn the last, so that a slow link lags by one redraw and never queues.
(() => {
  "use strict";
  const Start = 5; // px before a press on a corner is a drag
  let drag = null, press = null, count = 0;
  const shares = (board, event) => {
    const box = board.getBoundingClientRect();
    const share = value => Math.min(1, Math.max(0, value)).toFixed(4);
    return `${share((event.clientX - box.left) / box.width)}|${share((box.bottom - event.clientY) / box.height)}`;
  };
  function say(board, words) {
    const field = board.querySelector("[data-outline-word]"), word = String(++count);
    if (!field) return null;
    field.value = `${words}|${word}`;
    field.dispatchEvent(new Event("change", { bubbles: true }));
    return word;
  }
  function send(own) {
    if (own.waiting || !own.next) return;
    const word = say(own.board, `${own.taken ? "move" : "take"}|${own.corner}|${own.next}`);
    [own.taken, own.next, own.waiting] = [true, null, word];
    own.lost = setTimeout(() => { if (own.waiting === word) { own.waiting = null; send(own); } }, 1500);
  }
  document.addEventListener("pointerdown", event => {
    const board = event.target instanceof Element ? event.target.closest("[data-outline-board=open]") : null;
    if (!board || event.button !== 0) return;
    const corner = event.target.closest("[data-corner]");
    if (!corner) { press = { board, pointer: event.pointerId, x: event.clientX, y: event.clientY }; return; }
    const own = drag = { board, corner: corner.dataset.corner, pointer: event.pointerId, x: event.clientX, y: event.clientY, taken: false, next: null, waiting: null };
    own.watch = new MutationObserver(() => {
      if (!own.waiting || board.dataset.outlineSeen !== own.waiting) return;
      clearTimeout(own.lost);
      own.waiting = null;
      send(own);
      if (own.ended && !own.waiting) own.watch.disconnect();
    });
    own.watch.observe(board, { attributes: true, attributeFilter: ["data-outline-seen"] });
  });
  document.addEventListener("pointermove", event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    if (!drag.taken && !drag.next && Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < Start) return;
    drag.next = shares(drag.board, event);
    send(drag);
  });
  document.addEventListener("pointerup", event => {
    if (drag && event.pointerId === drag.pointer) {
      const own = drag;
      drag = null;
      own.ended = true;
      send(own); // the last place counts
      if (!own.waiting) own.watch.disconnect();
    } else if (press && event.pointerId === press.pointer) {
      // A finger that scrolled the page has not tapped.
      if (Math.hypot(event.clientX - press.x, event.clientY - press.y) < 2 * Start) say(press.board, `add|${shares(press.board, event)}`);
      press = null;
    }
  });
  document.addEventListener("pointercancel", event => {
    if (press?.pointer === event.pointerId) press = null;
    if (drag?.pointer === event.pointerId) { drag.watch.disconnect(); drag = null; }
  });
  document.addEventListener("keydown", event => {
    if (event.target instanceof Element && event.target.matches("[data-corner]") && (event.key.startsWith("Arrow") || event.key === "Delete")) event.preventDefault();
  });
})();
