// Joining connectors by dragging with mouse or pen, from an output to an input or back. What was meant becomes a word in the hidden field that
// the component listens to: "join|part:number|part:number". A finger taps one after the other, so that it can scroll.
(() => {
  "use strict";
  const Start = 6; // px before a press is a drag
  let drag = null;

  const port = (at, what) => at instanceof Element ? at.closest(`[data-${what}]`) : null;
  const end = () => {
    if (!drag) return;
    drag.line?.remove();
    drag.board.querySelectorAll("[data-over]").forEach(each => each.removeAttribute("data-over"));
    drag = null;
  };

  document.addEventListener("pointerdown", event => {
    end();
    const output = port(event.target, "out"), input = port(event.target, "in");
    const from = output ?? input;
    const board = from?.closest("[data-connect]");
    if (!board || !board.querySelector("[data-connect-value]") || event.button !== 0 || event.pointerType === "touch") return;
    drag = { board, from, wants: output ? "in" : "out", pointer: event.pointerId, x: event.clientX, y: event.clientY, line: null };
  });
  document.addEventListener("pointermove", event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    if (!drag.line) {
      if (Math.hypot(event.clientX - drag.x, event.clientY - drag.y) < Start) return;
      drag.line = document.createElement("div");
      drag.line.className = "connect-line";
      document.body.append(drag.line);
    }
    const box = drag.from.getBoundingClientRect();
    const fromX = drag.wants === "in" ? box.right : box.left, fromY = (box.top + box.bottom) / 2;
    const [dx, dy] = [event.clientX - fromX, event.clientY - fromY];
    drag.line.style.cssText = `left:${fromX}px;top:${fromY}px;width:${Math.hypot(dx, dy)}px;transform:rotate(${Math.atan2(dy, dx)}rad)`;
    const over = port(document.elementFromPoint(event.clientX, event.clientY), drag.wants);
    drag.board.querySelectorAll("[data-over]").forEach(each => { if (each !== over) each.removeAttribute("data-over"); });
    over?.setAttribute("data-over", "");
  });
  document.addEventListener("pointerup", event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const { board, from, wants, line } = drag;
    const over = line ? port(document.elementFromPoint(event.clientX, event.clientY), wants) : null;
    end();
    if (!line) return;
    // The click that follows a drag chooses nothing.
    const swallow = click => { click.stopPropagation(); click.preventDefault(); };
    document.addEventListener("click", swallow, { capture: true, once: true });
    setTimeout(() => document.removeEventListener("click", swallow, { capture: true }), 0);
    const field = board.querySelector("[data-connect-value]");
    if (!over || !board.contains(over) || !field) return;
    const [output, input] = wants === "in" ? [from, over] : [over, from];
    field.value = `join|${output.dataset.out}|${input.dataset.in}`;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  });
  document.addEventListener("pointercancel", end);
  document.addEventListener("keydown", event => { if (event.key === "Escape") end(); });
})();
