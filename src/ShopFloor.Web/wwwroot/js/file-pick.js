// Files to /files over plain HTTP, one after the other, with progress and a way to stop; the id of each answer goes into the hidden field.
(() => {
  "use strict";
  document.addEventListener("change", event => {
    const input = event.target instanceof Element && event.target.matches("[data-file-input]") ? event.target : null;
    const pick = input?.closest("[data-file-pick]"), files = [...input?.files ?? []];
    if (!pick || files.length === 0) return;
    event.stopPropagation();
    input.value = ""; // the same file can be chosen again
    pick.querySelector("[data-file-problem]").textContent = "";
    send(pick, files);
  });
  // A file may be dropped on the field; one dropped beside it must not take the browser away from the page.
  const over = event => [...event.dataTransfer?.types ?? []].includes("Files");
  const mark = pick => document.querySelectorAll("[data-file-over]").forEach(one => one !== pick && one.removeAttribute("data-file-over"));
  for (const name of ["dragenter", "dragover"]) document.addEventListener(name, event => {
    if (!over(event) || !document.querySelector("[data-file-pick]")) return;
    const pick = event.target.closest?.("[data-file-pick]");
    event.preventDefault();
    event.dataTransfer.dropEffect = pick ? "copy" : "none";
    mark(pick);
    pick?.setAttribute("data-file-over", "");
  });
  document.addEventListener("dragleave", event => { if (!event.relatedTarget) mark(null); });
  document.addEventListener("drop", event => {
    if (!over(event) || !document.querySelector("[data-file-pick]")) return;
    event.preventDefault();
    mark(null);
    const pick = event.target.closest?.("[data-file-pick]"), files = [...event.dataTransfer.files];
    if (!pick || files.length === 0) return;
    pick.querySelector("[data-file-problem]").textContent = "";
    send(pick, pick.querySelector("[data-file-input]").multiple ? files : files.slice(0, 1));
  });
  // A file that was made on the page goes the same way as a chosen one.
  document.addEventListener("shop-file", event => { const pick = event.target.querySelector?.("[data-file-pick]"); if (pick) send(pick, [event.detail]); });
  function send(pick, files) {
    const [file, ...rest] = files;
    const part = name => pick.querySelector(`[data-file-${name}]`);
    const [progress, cancel, problem, value] = ["progress", "cancel", "problem", "value"].map(part);
    const refuse = words => { problem.textContent = `${problem.textContent} ${words}`.trim(); problem.hidden = problem.textContent.length === 0; };
    refuse("");
    const done = () => { progress.textContent = ""; cancel.hidden = true; if (rest.length > 0) send(pick, rest); };
    const most = Number(pick.dataset.fileMost || Infinity);
    if (file.size > most) { refuse(`${file.name} has ${(file.size / 1048576).toFixed(1)} MB; at most ${Math.floor(most / 1048576)} MB are taken. Is it the right file?`); done(); return; }
    const form = new FormData();
    form.append("jobId", pick.dataset.fileJob);
    form.append("kind", pick.dataset.fileKind);
    form.append("file", file, file.name);
    const request = new XMLHttpRequest();
    request.open("POST", "/files");
    request.setRequestHeader("RequestVerificationToken", window.shopShell.meta("shop-antiforgery"));
    request.setRequestHeader("Accept", "application/json, application/problem+json");
    request.upload.onprogress = sent => { if (sent.lengthComputable) progress.textContent = `${file.name}: ${Math.round(100 * sent.loaded / sent.total)} %`; };
    request.onload = () => {
      let answer = null;
      try { answer = JSON.parse(request.responseText); } catch { /* told below by its status */ }
      if (request.status === 201 && answer?.id) {
        value.value = answer.id;
        value.dispatchEvent(new Event("change", { bubbles: true }));
      } else if (request.status === 413) refuse(`${file.name} is larger than 64 MB, the most one file may have.`);
      else refuse(answer?.errors ? Object.values(answer.errors).flat().join(" ") : answer?.detail || `${file.name} was not taken (${request.status}). Load the page again and retry.`);
      done();
    };
    request.onerror = () => { rest.length = 0; done(); refuse(`${file.name} did not arrive: no connection. Try again.`); };
    request.onabort = () => { cancel.hidden = true; progress.textContent = "Stopped."; };
    cancel.onclick = () => request.abort();
    cancel.hidden = false;
    progress.textContent = `${file.name}: sending${rest.length > 0 ? `, ${rest.length} more` : ""}`;
    request.send(form);
  }
})();
