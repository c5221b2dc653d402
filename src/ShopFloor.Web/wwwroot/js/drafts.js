// Mirrors what is being typed into localStorage, so that a lost link, a reload or a restart loses nothing.
// Secrets are never mirrored, and a person's drafts go when they sign out.
(() => {
  "use strict";
  const prefix = "shop-draft:", keepDays = 30, pause = 300;
  const timers = new Map();
  const person = () => document.querySelector('meta[name="shop-person"]')?.content || "nobody";
  const storageKey = key => `${prefix}${person()}:${key}`;
  const secret = field => ["password", "hidden", "file"].includes(field.type) || /password|one-time-code|cc-/.test(field.autocomplete ?? "");
  const usable = field => field instanceof HTMLElement && field.matches("input[data-draft], textarea[data-draft], select[data-draft]") && !secret(field) && !["checkbox", "radio"].includes(field.type);

  function read(key) {
    try { return JSON.parse(localStorage.getItem(storageKey(key))); } catch { return null; }
  }
  function save(field) {
    clearTimeout(timers.get(field));
    timers.delete(field);
    const key = field.dataset.draft;
    if (!key) return;
    if (field.value === "") { localStorage.removeItem(storageKey(key)); return; }
    try {
      localStorage.setItem(storageKey(key), JSON.stringify({ value: field.value, version: field.dataset.draftVersion ?? "", at: Date.now() }));
    } catch { /* A full store must not stop the typing itself; the server still gets it. */ }
  }
  function flush() { for (const field of [...timers.keys()]) save(field); }

  document.addEventListener("input", event => {
    if (!usable(event.target)) return;
    const field = event.target;
    clearTimeout(timers.get(field));
    timers.set(field, setTimeout(() => save(field), pause));
  });
  addEventListener("pagehide", flush);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "hidden") flush(); });

  function put(field, value) {
    field.value = value;
    field.dispatchEvent(new Event("input", { bubbles: true }));
    field.dispatchEvent(new Event("change", { bubbles: true }));
    field.dataset.draftState = "restored";
  }

  // Restores once per element: when the user empties a field later, it stays empty.
  const seen = new WeakSet();
  function restoreAll() {
    for (const field of document.querySelectorAll("[data-draft]")) {
      if (seen.has(field) || !usable(field)) continue;
      seen.add(field);
      const draft = read(field.dataset.draft);
      if (!draft || field.value === draft.value) continue;
      const newer = draft.version !== "" && draft.version !== (field.dataset.draftVersion ?? "");
      if (field.value === "" && !newer) put(field, draft.value);
      else offer(field, draft);
    }
  }
  // The server has something else meanwhile: nothing is overwritten, nothing thrown away.
  function offer(field, draft) {
    const name = field.labels?.[0]?.innerText.trim() || field.getAttribute("aria-label") || "A field";
    field.dataset.draftState = "kept";
    document.dispatchEvent(new CustomEvent("shop-draft-kept", { detail: { key: field.dataset.draft, value: draft.value } }));
    window.shopShell?.notice(`${name}: what you typed earlier is kept (“${draft.value.slice(0, 60)}”), but the saved value is another one.`, {
      kind: "warn", action: "Put mine back", onAction: () => put(field, draft.value),
    });
  }

  function clear(key) {
    for (const field of [...timers.keys()]) {
      if (field.dataset.draft === key) { clearTimeout(timers.get(field)); timers.delete(field); }
    }
    localStorage.removeItem(storageKey(key));
  }
  function keysWhere(test) {
    const keys = [];
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i);
      if (key.startsWith(prefix) && test(key)) keys.push(key);
    }
    return keys;
  }
  function clearPerson() {
    for (const field of [...timers.keys()]) clearTimeout(timers.get(field));
    timers.clear();
    keysWhere(key => key.startsWith(`${prefix}${person()}:`)).forEach(key => localStorage.removeItem(key));
  }

  document.addEventListener("shop-draft-saved", event => [event.detail?.key ?? event.detail?.keys ?? []].flat().forEach(clear));
  document.addEventListener("submit", event => { if (event.target.matches("[data-sign-out]")) clearPerson(); });
  keysWhere(() => true).forEach(key => {
    try { if (Date.now() - JSON.parse(localStorage.getItem(key)).at > keepDays * 86400000) localStorage.removeItem(key); } catch { localStorage.removeItem(key); }
  });

  // A static page that has saved a form names its keys here, parted by spaces.
  for (const saved of document.querySelectorAll('meta[name="shop-draft-saved"]')) saved.content.split(/\s+/).filter(Boolean).forEach(clear);
  let pending = false;
  new MutationObserver(() => {
    if (pending) return;
    pending = true;
    // After the frame, so that Blazor has attached its own listeners to what it has just drawn.
    setTimeout(() => { pending = false; restoreAll(); }, 50);
  }).observe(document.body, { childList: true, subtree: true });
  document.addEventListener("shop-link-up", restoreAll);
  restoreAll();

  window.shopDrafts = { clear, clearPerson, flush, read: key => read(key)?.value ?? null };
})();
