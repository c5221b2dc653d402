// Photos go over plain HTTP, not through the circuit. They wait in IndexedDB until the server has them.
(() => {
  "use strict";
  const shell = window.shopShell;
  const progress = new Map();
  let waitingList = [], sending = false, again = false, wait = 2000, timer = 0, signInNeeded = false;
  const person = () => shell.meta("shop-person");

  const database = new Promise((resolve, reject) => {
    const opening = indexedDB.open("shop-photos", 1);
    opening.onupgradeneeded = () => opening.result.createObjectStore("photos", { keyPath: "id" });
    opening.onsuccess = () => resolve(opening.result);
    opening.onerror = () => reject(opening.error);
  });
  async function store(mode, act) {
    const transaction = (await database).transaction("photos", mode);
    const asked = act(transaction.objectStore("photos"));
    return new Promise((resolve, reject) => {
      transaction.oncomplete = () => resolve(asked?.result);
      transaction.onerror = transaction.onabort = () => reject(transaction.error);
    });
  }
  const all = async () => (await store("readonly", photos => photos.getAll())).filter(photo => photo.person === person()).sort((a, b) => a.at - b.at || a.order - b.order);

  async function refresh() {
    waitingList = await all();
    shell.count("photos", waitingList);
  }
  const tell = (name, detail) => document.dispatchEvent(new CustomEvent(name, { detail }));

  async function add(input) {
    const files = [...input.files];
    // Copied before the field is emptied, so that the same picture can be chosen again.
    input.value = "";
    if (!person()) { shell.notice("Sign in before adding photos.", { kind: "stop" }); return; }
    const fields = JSON.parse(input.dataset.uploadFields || "{}");
    for (const [order, file] of files.entries()) {
      const id = [...crypto.getRandomValues(new Uint8Array(16))].map(b => b.toString(16).padStart(2, "0")).join("");
      try {
        await store("readwrite", photos => photos.put({ id, person: person(), url: input.dataset.uploadUrl, fields, name: file.name, blob: file, at: Date.now(), order, state: "waiting", tries: 0 }));
        tell("shop-photo-queued", { id, url: input.dataset.uploadUrl, fields });
      } catch {
        shell.notice(`This tablet has no room left: the photo “${file.name}” was NOT kept.`, { kind: "stop" });
      }
    }
    await refresh();
    send();
  }

  async function send() {
    if (sending) { again = true; return; }
    sending = true;
    clearTimeout(timer);
    try {
      const run = navigator.locks ? navigator.locks.request("shop-photos", sendAll) : sendAll();
      await run;
    } catch { later(); } finally {
      sending = false;
      if (again) { again = false; send(); }
    }
  }
  function later() {
    timer = setTimeout(send, wait);
    wait = Math.min(wait * 2, 60000);
  }

  async function sendAll() {
    await refresh();
    for (const photo of waitingList.filter(each => each.state === "waiting")) {
      const answer = await upload(photo);
      progress.delete(photo.id);
      if (answer.status >= 200 && answer.status < 300 && !answer.redirected) {
        wait = 2000;
        signInNeeded = false;
        await store("readwrite", photos => photos.delete(photo.id));
        tell("shop-photo-uploaded", { id: photo.id, url: photo.url, fields: photo.fields, response: answer.body });
      } else if (answer.redirected || answer.status === 401) {
        if (!signInNeeded) shell.notice(`Sign in again, ${waitingList.length} ${waitingList.length === 1 ? "photo is" : "photos are"} kept.`, { kind: "warn" });
        signInNeeded = true;
        return;
      } else if (answer.status === 0 || [408, 425, 429].includes(answer.status) || answer.status >= 500 && photo.tries < 5) {
        if (answer.status >= 500) await store("readwrite", photos => photos.put({ ...photo, tries: photo.tries + 1 }));
        later();
        return;
      } else {
        const problem = answer.body?.detail || answer.body?.title || `The server refused it (${answer.status}).`;
        await store("readwrite", photos => photos.put({ ...photo, state: "refused", problem }));
        shell.notice(`Photo not accepted: ${photo.name}. ${problem}`, { kind: "stop" });
        tell("shop-photo-refused", { id: photo.id, url: photo.url, problem });
      }
      await refresh();
    }
  }

  // XMLHttpRequest, because fetch does not report the progress of an upload.
  function upload(photo) {
    return new Promise(resolve => {
      const request = new XMLHttpRequest();
      const form = new FormData();
      for (const [name, value] of Object.entries(photo.fields)) form.append(name, value);
      form.append("photo", photo.blob, photo.name);
      request.open("POST", photo.url);
      request.timeout = 120000;
      request.setRequestHeader("RequestVerificationToken", shell.meta("shop-antiforgery"));
      request.setRequestHeader("Idempotency-Key", photo.id);
      request.upload.onprogress = event => {
        if (!event.lengthComputable) return;
        progress.set(photo.id, event.loaded / event.total);
        showProgress(photo.id);
        tell("shop-photo-progress", { id: photo.id, url: photo.url, share: event.loaded / event.total });
      };
      request.onload = () => {
        let body = null;
        try { body = JSON.parse(request.responseText); } catch { /* An answer without JSON is still an answer. */ }
        resolve({ status: request.status, body, redirected: request.responseURL !== "" && new URL(request.responseURL).pathname !== new URL(photo.url, location.href).pathname });
      };
      request.onerror = request.ontimeout = request.onabort = () => resolve({ status: 0, body: null, redirected: false });
      request.send(form);
    });
  }

  function showProgress(id) {
    const bar = document.querySelector(`progress[data-photo="${id}"]`);
    if (bar) bar.value = progress.get(id) ?? 0;
  }
  function item(photo) {
    const row = document.createElement("li");
    row.className = photo.state;
    const name = document.createElement("div");
    name.textContent = `${photo.name} (${(photo.blob.size / 1048576).toFixed(1)} MB)`;
    row.append(name);
    if (photo.state === "refused") {
      const problem = document.createElement("div");
      problem.className = "field-problem";
      problem.textContent = photo.problem;
      const buttons = document.createElement("div");
      buttons.className = "button-row";
      buttons.append(
        shell.button("Send again", async () => { await store("readwrite", photos => photos.put({ ...photo, state: "waiting", tries: 0 })); await refresh(); send(); }),
        shell.button("Dismiss", async () => { await store("readwrite", photos => photos.delete(photo.id)); await refresh(); }, "button-quiet"));
      row.append(problem, buttons);
    } else {
      const bar = document.createElement("progress");
      bar.dataset.photo = photo.id;
      bar.setAttribute("aria-label", `Sending ${photo.name}`);
      bar.max = 1;
      bar.value = progress.get(photo.id) ?? 0;
      row.append(bar);
    }
    return row;
  }
  shell.traySection("photos", () => shell.section("Photos kept on this tablet", waitingList.map(item)));

  document.addEventListener("change", event => {
    if (event.target.matches?.("input[type=file][data-upload-url]") && event.target.files.length > 0) add(event.target);
  });
  const soon = () => { wait = 2000; send(); };
  addEventListener("online", soon);
  addEventListener("pageshow", soon);
  document.addEventListener("visibilitychange", () => { if (document.visibilityState === "visible") soon(); });
  document.addEventListener("shop-link-up", soon);
  document.addEventListener("shop-server-answers", soon);
  window.shopPhotos = { waiting: () => waitingList.map(({ id, name, state }) => ({ id, name, state })), retryNow: soon };
  send();
})();
