// Small things of the shell that need no server: keys, notices, the running clock, unit cookie, token in forms.
(() => {
  "use strict";

  const meta = name => document.querySelector(`meta[name="${name}"]`)?.content ?? "";

  function notice(text, { kind = "note", action, onAction, seconds = 8, beside } = {}) {
    const box = document.createElement("div");
    box.className = `notice notice-${kind}`;
    const words = document.createElement("span");
    words.textContent = text;
    const row = document.createElement("div");
    row.className = "button-row";
    if (action) row.append(button(action, () => { onAction(); box.remove(); }));
    row.append(button("Close", () => box.remove()));
    box.append(words, row);
    const place = document.querySelector("[data-notices]");
    place?.append(box);
    if (place && beside) clear(beside, place);
    // What asks for an answer stays until it gets one.
    if (!action && kind !== "stop") setTimeout(() => box.remove(), seconds * 1000);
    return box;
  }

  // Moves the page so that what a notice is about stands above the notices instead of under them.
  function clear(what, place) {
    document.documentElement.style.setProperty("--notices-height", `${Math.ceil(place.getBoundingClientRect().height)}px`);
    const field = what.getBoundingClientRect(), notices = place.getBoundingClientRect();
    if (field.bottom + 16 > notices.top && field.right > notices.left) window.scrollBy({ top: field.bottom + 16 - notices.top });
  }

  function button(text, onClick, kind = "") {
    const element = document.createElement("button");
    element.type = "button";
    element.className = `button ${kind}`.trim();
    element.textContent = text;
    element.addEventListener("click", onClick);
    return element;
  }

  // The tray lists what is kept on this device. Outbox and photo queue each give it a section.
  const sections = new Map();
  const tray = () => document.querySelector("[data-tray]");
  function fillTray() {
    const body = document.querySelector("[data-tray-body]");
    if (!body) return;
    const parts = [...sections.values()].map(make => make()).filter(Boolean);
    if (parts.length === 0) {
      const empty = document.createElement("p");
      empty.className = "tray-empty";
      empty.textContent = "Nothing is waiting. Everything entered here has reached the server.";
      parts.push(empty);
    }
    body.replaceChildren(...parts);
  }
  function section(title, entries) {
    if (entries.length === 0) return null;
    const part = document.createElement("section");
    const heading = document.createElement("h3");
    heading.textContent = title;
    const list = document.createElement("ul");
    list.append(...entries);
    part.append(heading, list);
    return part;
  }

  const counts = new Map();
  function count(source, entries) {
    counts.set(source, entries);
    showCount();
    if (tray()?.open) fillTray();
  }
  const total = state => [...counts.values()].flat().filter(entry => entry.state === state).length;
  function write(selector, text) {
    for (const element of document.querySelectorAll(selector)) if (element.textContent !== text) element.textContent = text;
  }
  function showCount() {
    const waiting = total("waiting"), refused = total("refused");
    write("[data-outbox-count]", String(waiting));
    write("[data-outbox-summary]", [waiting > 0 && `${waiting} waiting`, refused > 0 && `${refused} not accepted`].filter(Boolean).join(", "));
    write("[data-link-count]", waiting === 0 ? "" : `${waiting} waiting on this tablet`);
    for (const element of document.querySelectorAll("[data-tray-open]")) element.hidden = waiting + refused === 0;
  }

  function written(seconds) {
    const whole = Math.max(0, Math.floor(seconds));
    const two = n => String(n).padStart(2, "0");
    return `${Math.floor(whole / 3600)}:${two(Math.floor(whole / 60) % 60)}:${two(whole % 60)}`;
  }
  function tick() {
    for (const element of document.querySelectorAll("[data-elapsed-since]")) {
      const text = written((Date.now() - Date.parse(element.dataset.elapsedSince)) / 1000 + Number(element.dataset.elapsedBefore ?? 0));
      // The text node belongs to Blazor; changing its data keeps the node it will look for.
      if (element.firstChild && element.firstChild.data !== text) element.firstChild.data = text;
    }
  }
  setInterval(tick, 1000);

  document.addEventListener("keydown", event => {
    const typing = event.target.closest?.("input, textarea, select, [contenteditable]");
    if (event.key !== "/" || typing || event.ctrlKey || event.metaKey || event.altKey || document.querySelector("dialog[open], .mud-dialog")) return;
    // A page with a search of its own takes the key; elsewhere it goes to the search of the whole shop.
    const field = document.querySelector('main [data-key-focus="/"]') ?? document.querySelector('[data-key-focus="/"]');
    if (field) { event.preventDefault(); field.focus(); field.select(); }
  });

  document.addEventListener("click", event => {
    if (event.target.closest("[data-tray-open]")) { fillTray(); tray()?.showModal(); }
    if (event.target.closest("[data-tray-close]")) tray()?.close();
    // Pages that set a cookie have to be full requests, not changes inside the circuit.
    const link = event.target.closest("a[data-full-load]");
    if (link && !event.ctrlKey && !event.metaKey && !event.shiftKey) { event.preventDefault(); event.stopPropagation(); location.assign(link.href); }
  }, true);

  document.addEventListener("submit", event => {
    const token = event.target.querySelector("input[data-antiforgery]");
    if (token) token.value = meta("shop-antiforgery");
  }, true);

  // Blazor renders pages after this script has run; what it adds gets its marks then.
  let pending = false;
  const onPage = [];
  new MutationObserver(() => {
    if (pending) return;
    pending = true;
    requestAnimationFrame(() => { pending = false; showCount(); tick(); onPage.forEach(each => each()); });
  }).observe(document.body, { childList: true, subtree: true });

  window.shopShell = {
    meta, notice, button, section, count, fillTray,
    traySection: (name, make) => sections.set(name, make),
    whenPageChanges: each => onPage.push(each),
    rememberUnits: units => {
      document.cookie = `units=${units === "us" ? "us" : "metric"}; path=/; max-age=31536000; samesite=lax${location.protocol === "https:" ? "; secure" : ""}`;
    },
    setMeta: (name, value) => document.querySelector(`meta[name="${name}"]`)?.setAttribute("content", value),
  };
})();
