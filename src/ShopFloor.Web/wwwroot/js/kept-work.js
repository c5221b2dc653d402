// What the tablet's work page showed last, kept for a reload without a server: stages and steps of the last few jobs, of one person only.
// It goes as soon as that person signs out, hands the tablet over, is locked out, or somebody else is signed in.
(() => {
  "use strict";
  const prefix = "shop-kept:", personKey = "shop-kept-person", touchedKey = "shop-kept-touched", leavingKey = "shop-leaving";
  const most = 6, longestHours = 12;
  const offline = document.documentElement.hasAttribute("data-offline-page");
  const meta = name => document.querySelector(`meta[name="${name}"]`)?.content ?? "";
  const read = key => { try { return JSON.parse(localStorage.getItem(key)); } catch { return null; } };
  const write = (key, value) => { try { localStorage.setItem(key, JSON.stringify(value)); } catch { /* A full store must not stop the work. */ } };
  const jobKeys = () => Object.keys(localStorage).filter(key => key.startsWith(prefix));
  const sheets = () => jobKeys().map(read).filter(Boolean).sort((a, b) => b.seen - a.seen);

  function clear() {
    for (const key of [...jobKeys(), personKey, touchedKey]) localStorage.removeItem(key);
  }

  // The lock of a PIN session holds without the server too; a password's session is kept for a shift.
  function person() {
    const kept = read(personKey);
    if (!kept) return null;
    const limit = kept.lockSeconds > 0 ? kept.lockSeconds * 1000 : longestHours * 3600000;
    if (Date.now() - (read(touchedKey) ?? 0) <= limit) return kept;
    clear();
    return null;
  }

  function leave() {
    window.shopDrafts?.flush();
    const who = meta("shop-person");
    clear();
    if (who) write(leavingKey, who);
  }

  let lastTouch = 0;
  function touch() {
    if (Date.now() - lastTouch < 1000) return;
    lastTouch = Date.now();
    if (read(personKey)) write(touchedKey, lastTouch);
  }
  for (const sign of ["pointerdown", "keydown"]) addEventListener(sign, touch, { capture: true, passive: true });

  window.shopKept = { person, sheets, sheet: id => read(prefix + id), clear, leave };
  if (offline) {
    const kept = person();
    document.querySelector('meta[name="shop-person"]').content = kept?.id ?? "";
    return;
  }

  const me = meta("shop-person");
  const before = read(personKey);
  if (!me || before && before.id !== me) clear();
  if (read(leavingKey) !== me) localStorage.removeItem(leavingKey);

  document.addEventListener("submit", event => {
    const action = new URL(event.target.action, location.href).pathname;
    if (action === "/sign-out" || action === "/tablet/hand-over") leave();
  }, true);
  if (!me) return;

  // Handing over without a server only locks this device; what is left to do is done at the first page that comes through.
  let leaving = read(leavingKey) === me;
  function keep() {
    if (leaving) {
      const form = document.querySelector('form[action="/tablet/hand-over"], form[action="/sign-out"]');
      if (form) { leaving = false; form.requestSubmit(); }
      return;
    }
    const sheet = document.querySelector("[data-kept-sheet]")?.dataset.keptSheet;
    if (!sheet || read(leavingKey) === me) return;
    const seen = JSON.parse(sheet);
    if (read(prefix + seen.jobId)?.text === sheet) return;
    write(personKey, { id: me, name: meta("shop-person-name"), lockSeconds: Number(meta("shop-lock-seconds")) });
    write(touchedKey, Math.max(lastTouch, read(touchedKey) ?? 0) || Date.now());
    write(prefix + seen.jobId, { ...seen, text: sheet, seen: Date.now() });
    for (const old of sheets().slice(most)) localStorage.removeItem(prefix + old.jobId);
  }
  let pending = false;
  new MutationObserver(() => {
    if (pending) return;
    pending = true;
    setTimeout(() => { pending = false; keep(); }, 100);
  }).observe(document.body, { childList: true, subtree: true, attributes: true, attributeFilter: ["data-kept-sheet"] });
  keep();

  // The server locks an open page; while it cannot be reached, the device does.
  setInterval(() => {
    if (!window.shopPulse?.silent || !navigator.serviceWorker?.controller || !read(personKey) || person()) return;
    window.shopDrafts?.flush();
    location.assign("/work");
  }, 1000);

  // Needs https or localhost; elsewhere the page works as before, only not over a reload without a server.
  const version = meta("shop-offline-version");
  if (version && location.pathname.startsWith("/work")) {
    navigator.serviceWorker?.register(`/tablet-worker.js?v=${version}`, { scope: "/work", updateViaCache: "none" }).catch(() => {});
  }
})();
