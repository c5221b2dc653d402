// Signature pad: strokes with pointer, pen or finger become an SVG path; typing the name is the other way.
(() => {
  "use strict";
  const pads = new WeakMap();
  const part = (root, name) => root.querySelector(`[data-signature-${name}]`);
  const padOf = element => element.closest?.("[data-signature]");

  function state(root) {
    if (!pads.has(root)) pads.set(root, { strokes: [], drawing: null });
    return pads.get(root);
  }
  function place(canvas, event) {
    const box = canvas.getBoundingClientRect();
    return [Math.round((event.clientX - box.left) / box.width * canvas.width * 10) / 10, Math.round((event.clientY - box.top) / box.height * canvas.height * 10) / 10];
  }
  function draw(root) {
    const canvas = part(root, "canvas");
    const pen = canvas.getContext("2d");
    pen.clearRect(0, 0, canvas.width, canvas.height);
    pen.strokeStyle = getComputedStyle(canvas).color;
    pen.lineWidth = 2.5;
    pen.lineCap = pen.lineJoin = "round";
    for (const stroke of state(root).strokes) {
      pen.beginPath();
      stroke.forEach(([x, y], i) => i === 0 ? pen.moveTo(x, y) : pen.lineTo(x, y));
      if (stroke.length === 1) pen.lineTo(stroke[0][0] + 0.1, stroke[0][1]);
      pen.stroke();
    }
  }
  // Path moved into its own box, so that a document can scale it.
  function exported(root) {
    const typed = part(root, "instead").checked;
    const name = part(root, "name").value.trim();
    if (typed) return name ? { path: null, width: 0, height: 0, typedName: name } : null;
    const points = state(root).strokes.flat();
    if (points.length === 0) return null;
    const left = Math.min(...points.map(p => p[0])), top = Math.min(...points.map(p => p[1]));
    const number = n => String(Math.round(n * 10) / 10);
    const path = state(root).strokes.map(stroke => {
      const moved = stroke.map(([x, y]) => `${number(x - left)} ${number(y - top)}`);
      return `M${moved[0]}${moved.length === 1 ? `L${moved[0]}` : moved.slice(1).map(p => `L${p}`).join("")}`;
    }).join("");
    return { path, width: Number(number(Math.max(...points.map(p => p[0])) - left)), height: Number(number(Math.max(...points.map(p => p[1])) - top)), typedName: null };
  }
  function publish(root) {
    const value = exported(root);
    const field = part(root, "value");
    field.value = value ? JSON.stringify(value) : "";
    field.dispatchEvent(new Event("change", { bubbles: true }));
    root.dispatchEvent(new CustomEvent("shop-signature-changed", { bubbles: true, detail: value }));
  }

  document.addEventListener("pointerdown", event => {
    const canvas = event.target.closest?.("[data-signature-canvas]");
    if (!canvas || event.button !== 0) return;
    const pad = state(padOf(canvas));
    canvas.setPointerCapture(event.pointerId);
    pad.drawing = event.pointerId;
    pad.strokes.push([place(canvas, event)]);
    draw(padOf(canvas));
  });
  document.addEventListener("pointermove", event => {
    const root = padOf(event.target);
    if (!root || state(root).drawing !== event.pointerId) return;
    const canvas = part(root, "canvas");
    for (const each of event.getCoalescedEvents?.() ?? [event]) state(root).strokes.at(-1).push(place(canvas, each));
    draw(root);
  });
  for (const end of ["pointerup", "pointercancel"]) {
    document.addEventListener(end, event => {
      const root = padOf(event.target);
      if (!root || state(root).drawing !== event.pointerId) return;
      state(root).drawing = null;
      publish(root);
    });
  }
  document.addEventListener("click", event => {
    const undo = event.target.closest("[data-signature-undo]"), clear = event.target.closest("[data-signature-clear]");
    if (!undo && !clear) return;
    const root = padOf(event.target);
    if (undo) state(root).strokes.pop(); else state(root).strokes = [];
    draw(root);
    publish(root);
  });
  document.addEventListener("input", event => { if (event.target.matches?.("[data-signature-name]")) publish(padOf(event.target)); });
  document.addEventListener("change", event => {
    if (!event.target.matches?.("[data-signature-instead]")) return;
    const root = padOf(event.target);
    part(root, "name-row").hidden = !event.target.checked;
    if (event.target.checked) part(root, "name").focus();
    publish(root);
  });
})();
