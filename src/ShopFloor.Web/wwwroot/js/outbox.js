// Commands pressed on the tablet, kept in localStorage until the server has them. Works without the circuit.
// Each entry has its own storage key, so two tabs never overwrite each other's list; ids sort by time, so order is kept.
(() => {
  "use strict";
  const shell = window.shopShell;
  const prefix = "shop-outbox:";
  const retryAgain = [408, 425, 429];
  const firstWait = 1000, longestWait = 30000, giveUpOn500After = 5;
  let wait = firstWait, timer = 0, sending = false, again = false, signInNeeded = false, lastTime = 0, inFlight = null;
  const noticeOf = new Map();

  const person = () => shell.meta("shop-person");

  // UUID version 7 (RFC 9562): time first. crypto.randomUUID would need https; getRandomValues does not.
  function newId() {
    lastTime = Math.max(Date.now(), lastTime + 1);
    const bytes = crypto.getRandomValues(new Uint8Array(16));
    for (let i = 0, t = lastTime; i < 6; i++, t = Math.floor(t / 256)) bytes[5 - i] = t % 256;
    bytes[6] = (bytes[6] & 0x0f) | 0x70;
    bytes[8] = (bytes[8] & 0x3f) | 0x80;
    const hex = [...bytes].map(b => b.toString(16).padStart(2, "0")).join("");
    return `${hex.slice(0, 8)}-${hex.slice(8, 12)}-${hex.slice(12, 16)}-${hex.slice(16, 20)}-${hex.slice(20)}`;
  }

  function entries() {
    const mine = `${prefix}${person()}:`;
    const keys = [];
    for (let i = 0; i < localStorage.length; i++) {
      const key = localStorage.key(i);
      if (key.startsWith(mine)) keys.push(key);
    }
    return keys.sort().map(key => { try { return { key, ...JSON.parse(localStorage.getItem(key)) }; } catch { return null; } }).filter(entry => entry?.url);
  }
  const waiting = () => entries().filter(entry => entry.state === "waiting");
  const refused = () => entries().filter(entry => entry.state === "refused");

  function keep({ key, ...entry }) {
    localStorage.setItem(key, JSON.stringify(entry));
  }

  // settles: what the press is about. Once it is accepted, an earlier refusal of the same is no longer news.
  function enqueue(url, body, label, settles) {
    if (!person()) {
      shell.notice("Sign in before entering anything; this press was not kept.", { kind: "stop" });
      return null;
    }
    const id = newId();
    const entry = { key: `${prefix}${person()}:${id}`, id, url, body, label: label || url, settles, at: new Date().toISOString(), tries: 0, state: "waiting" };
    try {
      keep(entry);
    } catch {
      shell.notice(`This tablet has no room left: “${entry.label}” was NOT kept. Write it down and tell the office.`, { kind: "stop" });
      return null;
    }
    changed();
    send();
    return id;
  }

  function changed() {
    shell.count("outbox", entries());
    markAll();
    document.dispatchEvent(new CustomEvent("shop-outbox-changed", { detail: { waiting: waiting().length, refused: refused().length } }));
  }

  // Buttons show what became of the press. A page drawn anew (reload, re-render) gets its marks from the queue again.
  const same = (element, entry) => element.dataset.outboxUrl === entry.url && element.dataset.outboxBody !== undefined && covers(entry.body, element.dataset.outboxBody);
  function covers(body, json) {
    try { return Object.entries(JSON.parse(json || "{}")).every(([name, value]) => JSON.stringify(body?.[name]) === JSON.stringify(value)); } catch { return false; }
  }
  function markAll() {
    const all = entries();
    for (const element of document.querySelectorAll("[data-outbox-url]")) {
      const state = all.findLast(entry => same(element, entry))?.state;
      const now = element.dataset.outboxState;
      if (state && now !== state) element.dataset.outboxState = state;
      else if (!state && (now === "waiting" || now === "refused")) delete element.dataset.outboxState;
    }
  }
  function markSent(entry) {
    for (const element of document.querySelectorAll("[data-outbox-url]")) {
      if (!same(element, entry)) continue;
      element.dataset.outboxState = "sent";
      setTimeout(() => { if (element.dataset.outboxState === "sent") delete element.dataset.outboxState; }, 4000);
    }
  }

  function schedule(milliseconds) {
    clearTimeout(timer);
    timer = setTimeout(send, milliseconds);
  }
  function backOff(retryAfter) {
    schedule(retryAfter > 0 ? Math.min(retryAfter * 1000, 300000) : wait);
    wait = Math.min(wait * 2, longestWait);
  }

  // One tab sends at a time where the browser offers locks (https); elsewhere the idempotency key makes a double send harmless.
  function send() {
    // Asked for in the last moment of a round, it would be missed; so the round is followed by another.
    if (sending) { again = true; return; }
    sending = true;
    const run = navigator.locks ? navigator.locks.request("shop-outbox", sendAll) : sendAll();
    Promise.resolve(run).catch(() => backOff(0)).finally(() => {
      sending = false;
      if (again) { again = false; send(); }
    });
  }

  async function sendAll() {
    clearTimeout(timer);
    for (let entry = waiting()[0]; entry; entry = waiting()[0]) {
      const response = await post(entry);
      if (!localStorage.getItem(entry.key)) continue;
      if (!response) return backOff(0);
      if (response.ok) {
        wait = firstWait;
        signInNeeded = false;
        forget(entry);
        if (entry.settles) refused().filter(old => old.url === entry.url && old.settles === entry.settles && old.id < entry.id).forEach(forget);
        changed();
        markSent(entry);
        document.dispatchEvent(new CustomEvent("shop-outbox-sent", { detail: { id: entry.id, url: entry.url, body: entry.body } }));
        continue;
      }
      if (response.type === "opaqueredirect" || response.status === 401) return askToSignIn();
      if (retryAgain.includes(response.status)) return backOff(Number(response.headers.get("Retry-After")));
      const poisoned = response.status === 500 && entry.tries + 1 >= giveUpOn500After;
      if (response.status >= 500 && !poisoned) {
        keep({ ...entry, tries: entry.tries + 1 });
        return backOff(Number(response.headers.get("Retry-After")));
      }
      const problem = await readProblem(response);
      keep({ ...entry, state: "refused", problem });
      changed();
      tellRefused(entry, problem);
      document.dispatchEvent(new CustomEvent("shop-outbox-refused", { detail: { id: entry.id, url: entry.url, problem } }));
    }
  }

  function forget(entry) {
    localStorage.removeItem(entry.key);
    noticeOf.get(entry.id)?.remove();
    noticeOf.delete(entry.id);
  }

  function tellRefused(entry, problem) {
    const pressed = [...document.querySelectorAll("[data-outbox-url]")].find(element => same(element, entry));
    const beside = pressed?.closest(".step, .kept-step") ?? pressed?.closest("[data-outbox-form]");
    noticeOf.set(entry.id, shell.notice(`Not accepted: ${entry.label}. ${problem}`, { kind: "stop", action: "Show", onAction: openTray, beside }));
  }

  async function post(entry) {
    try {
      const response = await request(entry);
      // A stale antiforgery token is answered by a bare 400; the page itself hands out a fresh one.
      const bare = response.status === 400 && !(response.headers.get("Content-Type") ?? "").includes("json");
      return bare && await refreshToken() ? await request(entry) : response;
    } catch {
      return null;
    }
  }
  // A request that hangs on a silent link is given up when the link is back; the key makes a second one of the same harmless.
  const giveUp = () => inFlight?.abort();
  function request(entry) {
    const limit = inFlight = new AbortController();
    const timer = setTimeout(() => limit.abort(), 20000);
    return fetch(entry.url, {
      method: "POST",
      credentials: "same-origin",
      redirect: "manual",
      headers: { "Content-Type": "application/json", Accept: "application/json, application/problem+json", "Idempotency-Key": entry.id, "Pressed-At": entry.at, RequestVerificationToken: shell.meta("shop-antiforgery") },
      body: JSON.stringify(entry.body ?? {}),
      signal: limit.signal,
    }).finally(() => clearTimeout(timer));
  }

  async function refreshToken() {
    const response = await fetch(location.href, { credentials: "same-origin", redirect: "manual" });
    if (!response.ok) return false;
    const page = new DOMParser().parseFromString(await response.text(), "text/html");
    const read = name => page.querySelector(`meta[name="${name}"]`)?.content;
    // Entries are never sent under another person's session.
    if (read("shop-person") !== person() || !read("shop-antiforgery")) return false;
    shell.setMeta("shop-antiforgery", read("shop-antiforgery"));
    return true;
  }

  async function readProblem(response) {
    try {
      const problem = await response.json();
      const details = Object.values(problem.errors ?? {}).flat().join(" ");
      return problem.detail || details || problem.title || `The server refused it (${response.status}).`;
    } catch {
      return response.status === 500 ? "The server could not process it." : `The server refused it (${response.status}).`;
    }
  }

  function askToSignIn() {
    if (signInNeeded) return;
    signInNeeded = true;
    const number = entries().length;
    shell.notice(`Sign in again, ${number} ${number === 1 ? "entry is" : "entries are"} kept.`, {
      kind: "warn", action: "Sign in", onAction: () => location.assign(`/sign-in?from=${encodeURIComponent(location.pathname + location.search)}`),
    });
  }

  function openTray() { shell.fillTray(); document.querySelector("[data-tray]")?.showModal(); }
  function line(text, className = "") {
    const element = document.createElement("div");
    element.className = className;
    element.textContent = text;
    return element;
  }
  function item(entry) {
    const row = document.createElement("li");
    row.className = entry.state;
    row.append(line(entry.label), line(`Pressed ${new Date(entry.at).toLocaleString()}`, "muted"));
    if (entry.state === "refused") {
      row.append(line(entry.problem, "field-problem"));
      const buttons = document.createElement("div");
      buttons.className = "button-row";
      buttons.append(
        shell.button("Send again", () => { noticeOf.get(entry.id)?.remove(); keep({ ...entry, state: "waiting", tries: 0, problem: undefined }); changed(); send(); }),
        shell.button("Dismiss", () => { forget(entry); changed(); }, "button-quiet"));
      row.append(buttons);
    }
    return row;
  }
  shell.traySection("refused", () => shell.section("Entries not accepted", refused().map(item)));
  shell.traySection("waiting", () => shell.section("Waiting to be sent, in this order", waiting().map(item)));

  function fields(form) {
    const values = {};
    for (const field of form?.querySelectorAll("[data-outbox-field]") ?? []) {
      const value = field.type === "checkbox" ? field.checked : field.value.trim();
      if (field.matches("[data-outbox-required]") && (value === "" || value === false)) {
        field.setAttribute("aria-invalid", "true");
        field.focus();
        const name = field.labels?.[0]?.innerText.trim() || field.getAttribute("aria-label") || field.dataset.outboxField;
        shell.notice(`${name} is needed before this can be entered.`, { kind: "warn" });
        return null;
      }
      if (field.getAttribute("aria-invalid") === "true" && value !== "") field.removeAttribute("aria-invalid");
      if (field.type !== "radio" || field.checked) values[field.dataset.outboxField] = value;
    }
    return values;
  }

  document.addEventListener("click", event => {
    const element = event.target.closest("[data-outbox-url]");
    if (!element || element.disabled || element.getAttribute("aria-disabled") === "true") return;
    event.preventDefault();
    // A second press on a command that still waits is the same press, unless the page says it may repeat.
    if (element.dataset.outboxState === "waiting" && !("outboxRepeat" in element.dataset)) return;
    const form = element.closest("[data-outbox-form]");
    const typed = fields(form);
    if (!typed) return;
    const label = element.dataset.outboxLabel || element.innerText.trim();
    if (enqueue(element.dataset.outboxUrl, { ...JSON.parse(element.dataset.outboxBody || "{}"), ...typed }, label, "outboxSettles" in element.dataset ? element.dataset.outboxBody : undefined)) {
      element.dataset.outboxState = "waiting";
      for (const field of form?.querySelectorAll("[data-draft]") ?? []) window.shopDrafts?.clear(field.dataset.draft);
    }
  });

  const soon = () => { wait = firstWait; send(); };
  addEventListener("online", soon);
  addEventListener("pageshow", soon);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") soon(); });
  document.addEventListener("shop-link-up", soon);
  document.addEventListener("shop-server-silent", giveUp);
  document.addEventListener("shop-server-answers", event => { if (event.detail.wasSilent) giveUp(); soon(); });
  addEventListener("storage", event => { if (event.key?.startsWith(prefix)) changed(); });
  shell.whenPageChanges(markAll);

  window.shopOutbox = { enqueue, waiting, refused, retryNow: soon };
  changed();
  send();
})();
