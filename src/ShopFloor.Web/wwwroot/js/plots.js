// Plots and the pad beside them. A plot's curves are read back from its drawing; the pad sends "right|up|number" through its hidden
// field, the next place only after the server has drawn the last, so that a slow link lags by one redraw and never queues.
(() => {
  "use strict";

  // Reading a plot.
  // Of the wide and the narrow drawing the one that is shown.
  const drawingOf = plot => [...plot.querySelectorAll("[data-plot-scale]")].find(each => each.offsetParent) ?? null;
  const scaleOf = drawing => {
    const [left, right, top, bottom, from, to, low, high, kind, unit] = drawing.dataset.plotScale.split("|");
    return { left: +left, right: +right, top: +top, bottom: +bottom, from: +from, to: +to, low: +low, high: +high, log: kind === "log", unit };
  };
  const valueAt = (scale, y) => {
    const share = (scale.bottom - y) / (scale.bottom - scale.top);
    return scale.log ? scale.low * (scale.high / scale.low) ** share : scale.low + share * (scale.high - scale.low);
  };
  const heightAt = (points, x) => {
    for (let n = 1; n < points.length; n++) {
      const a = points[n - 1], b = points[n];
      if (a.x <= x && b.x >= x) return b.x === a.x ? a.y : a.y + (b.y - a.y) * (x - a.x) / (b.x - a.x);
    }
    return null;
  };
  const number = value => value.toLocaleString(undefined, { maximumSignificantDigits: 3 });
  function read(plot, x) {
    const drawing = drawingOf(plot), svg = drawing?.querySelector("svg"), out = plot.querySelector("[data-plot-readout]");
    if (!svg || !out) return;
    const scale = scaleOf(drawing);
    x = Math.max(scale.left, Math.min(scale.right, x));
    plot.plotX = x;
    const hertz = scale.from * (scale.to / scale.from) ** ((x - scale.left) / (scale.right - scale.left));
    const words = [];
    for (const series of svg.querySelectorAll('[data-key^="series:"]')) {
      for (const line of series.querySelectorAll("polyline")) {
        const y = heightAt([...line.points], x);
        if (y === null) continue;
        words.push(`${series.getAttribute("data-key").slice(7)} ${number(valueAt(scale, y))} ${scale.unit}`);
        break;
      }
    }
    out.textContent = `${number(hertz)} Hz: ${words.join(" · ") || "–"}`;
    out.style.setProperty("--at", `${x / svg.viewBox.baseVal.width * 100}%`);
    out.hidden = false;
    out.dataset.on = "";
  }
  const still = plot => { const out = plot.querySelector("[data-plot-readout]"); if (out) { out.textContent = ""; delete out.dataset.on; } };
  const toDrawing = (plot, clientX) => {
    const svg = drawingOf(plot).querySelector("svg"), box = svg.getBoundingClientRect();
    return (clientX - box.left) / box.width * svg.viewBox.baseVal.width;
  };
  const plotOf = target => target instanceof Element ? target.closest("[data-plot-sheet]")?.closest("[data-plot]") : null;
  document.addEventListener("pointermove", event => { const plot = plotOf(event.target); if (plot && !drag) read(plot, toDrawing(plot, event.clientX)); });
  document.addEventListener("pointerdown", event => { const plot = plotOf(event.target); if (plot) read(plot, toDrawing(plot, event.clientX)); });
  document.addEventListener("pointerout", event => { const plot = plotOf(event.target); if (plot && event.pointerType === "mouse" && plotOf(event.relatedTarget) !== plot) still(plot); });
  document.addEventListener("keydown", event => {
    const plot = event.target instanceof Element && event.target.matches("[data-plot-sheet]") ? plotOf(event.target) : null;
    if (!plot || !["ArrowLeft", "ArrowRight", "Home", "End"].includes(event.key)) return;
    event.preventDefault();
    const drawing = drawingOf(plot);
    if (!drawing) return;
    const scale = scaleOf(drawing), step = (scale.right - scale.left) / (event.shiftKey ? 17 : 85), at = plot.plotX ?? (scale.left + scale.right) / 2;
    read(plot, event.key === "Home" ? scale.left : event.key === "End" ? scale.right : at + (event.key === "ArrowLeft" ? -step : step));
  });

  // Dragging on the pad.
  let drag = null, count = 0;
  function send() {
    if (!drag || drag.waiting || !drag.next) return;
    const field = drag.pad.querySelector("[data-pad-value]");
    if (!field) return;
    const own = drag, word = String(++count);
    [own.waiting, own.sent] = [word, performance.now()];
    field.value = `${own.next.x.toFixed(4)}|${own.next.y.toFixed(4)}|${word}`;
    own.next = null;
    field.dispatchEvent(new Event("change", { bubbles: true }));
    // A word that was lost, for example with the link, must not end the drag.
    own.lost = setTimeout(() => { if (own.waiting === word) { own.waiting = null; if (drag === own) send(); } }, 1500);
  }
  function seen(own) {
    if (!own.waiting || own.pad.dataset.padSeen !== own.waiting) return;
    clearTimeout(own.lost);
    const took = performance.now() - own.sent;
    own.pad.dataset.padMs = ((own.pad.dataset.padMs ? own.pad.dataset.padMs + " " : "") + took.toFixed(1)).split(" ").slice(-200).join(" ");
    own.waiting = null;
    if (drag === own) send(); else if (own.ended) own.watch.disconnect();
  }
  const move = event => {
    const box = drag.pad.getBoundingClientRect();
    drag.next = { x: Math.max(0, Math.min(1, (event.clientX - box.left) / box.width)), y: Math.max(0, Math.min(1, (box.bottom - event.clientY) / box.height)) };
    if (drag.pointer === event.pointerId) send();
  };
  document.addEventListener("pointerdown", event => {
    const pad = event.target instanceof Element ? event.target.closest("[data-pad=open]") : null;
    if (!pad || event.button !== 0) return;
    // The finger moves the handle only when it takes it; elsewhere on the pad it may scroll the page.
    if (event.pointerType === "touch" && !event.target.closest("[data-pad-handle]")) return;
    event.preventDefault();
    pad.querySelector("[data-pad-handle]")?.focus({ preventScroll: true });
    drag = { pad, pointer: event.pointerId, next: null, waiting: null };
    const own = drag;
    own.watch = new MutationObserver(() => seen(own));
    own.watch.observe(pad, { attributes: true, attributeFilter: ["data-pad-seen"] });
    move(event);
  });
  document.addEventListener("pointermove", event => { if (drag && event.pointerId === drag.pointer) move(event); });
  const end = event => {
    if (!drag || event.pointerId !== drag.pointer) return;
    const own = drag;
    send(); // the last place counts
    own.ended = true;
    setTimeout(() => own.watch.disconnect(), 3000);
    if (own.next) { const last = setInterval(() => { if (own.waiting) return; clearInterval(last); drag ??= own; send(); if (drag === own) drag = null; }, 10); }
    drag = null;
  };
  document.addEventListener("pointerup", end);
  document.addEventListener("pointercancel", end);
  document.addEventListener("touchmove", event => { if (drag) event.preventDefault(); }, { passive: false });
  document.addEventListener("keydown", event => {
    if (event.target instanceof Element && event.target.matches("[data-pad-handle]") && event.key.startsWith("Arrow")) event.preventDefault();
  });
})();
