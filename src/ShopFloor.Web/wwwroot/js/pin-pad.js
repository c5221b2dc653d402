// Keys for gloved hands. Without this script the field takes digits from any keyboard just the same.
(() => {
  "use strict";
  const form = document.querySelector("[data-pin-pad]");
  const field = form?.querySelector("[data-pin]");
  const keys = form?.querySelector("[data-pin-keys]");
  if (!field || !keys) return;
  keys.hidden = false;

  let sent = false;
  const check = () => {
    field.value = field.value.replace(/\D/g, "").slice(0, 6);
    if (field.value.length === 6 && !sent) { sent = true; form.requestSubmit(); }
  };
  keys.addEventListener("click", event => {
    const key = event.target.closest("button");
    if (!key || sent) return;
    if (key.dataset.digit) field.value += key.dataset.digit;
    else if ("pinClear" in key.dataset) field.value = "";
    else if ("pinBack" in key.dataset) field.value = field.value.slice(0, -1);
    check();
  });
  field.addEventListener("input", check);
  // Back from the next page the form is whole again.
  addEventListener("pageshow", () => { sent = false; field.value = ""; });
})();
