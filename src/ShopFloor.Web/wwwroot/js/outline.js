// A tap on an outline drawing becomes "x;y", each 0 to 1, in the hidden field that the component listens to.
(() => {
  "use strict";
  document.addEventListener("click", event => {
    const sheet = event.target.closest("[data-outline]");
    if (!sheet) return;
    const box = sheet.getBoundingClientRect();
    const share = (at, from, size) => Math.min(1, Math.max(0, (at - from) / size)).toFixed(4);
    const field = sheet.querySelector("[data-outline-value]");
    field.value = `${share(event.clientX, box.left, box.width)};${share(event.clientY, box.top, box.height)}`;
    field.dispatchEvent(new Event("change", { bubbles: true }));
  });
})();
