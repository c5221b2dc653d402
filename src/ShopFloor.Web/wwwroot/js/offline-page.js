// Draws the tablet's page without a server from what kept-work.js kept. Ticks go to the outbox like on the live page.
(() => {
  "use strict";
  const kept = window.shopKept;
  const page = document.querySelector("[data-kept-page]");

  function element(tag, className, ...content) {
    const made = document.createElement(tag);
    if (className) made.className = className;
    made.append(...content);
    return made;
  }
  function caution(title, text, danger) {
    const box = element("div", danger ? "caution caution-danger" : "caution");
    box.append(element("span", "", ""), element("div", "caution-title", title), element("div", "", text));
    return box;
  }

  function measureRow(sheet, measure) {
    const row = element("div", "kept-measure", element("strong", "", measure.name), element("span", "", measure.how), element("span", "", measure.limits));
    Object.assign(row.dataset, { measure: "", unit: measure.unit, lowest: measure.lowest ?? "", highest: measure.highest ?? "", outboxForm: "" });
    if (measure.last) row.append(element("span", "", `Last: ${measure.last}`));
    if (!sheet.open) return row;
    const field = element("input", "input");
    Object.assign(field, { type: "text", inputMode: "decimal", autocomplete: "off" });
    Object.assign(field.dataset, { outboxField: "value", outboxRequired: "", measureField: "", draft: `measure-${sheet.jobId}-${measure.id}` });
    const enter = element("button", "button button-primary", "Enter");
    enter.type = "button";
    Object.assign(enter.dataset, { outboxUrl: sheet.measureUrl, outboxBody: JSON.stringify({ jobId: sheet.jobId, pointId: measure.id }), outboxSettles: "", outboxRepeat: "", outboxLabel: `Measured: ${measure.name}` });
    const says = element("p", "kept-says");
    says.dataset.measureSays = "";
    says.setAttribute("aria-live", "polite");
    row.append(element("label", "field", element("span", "field-label", `${measure.name} (${measure.unit})`), field), enter, says);
    return row;
  }

  function stepRow(sheet, step, held) {
    const row = element("li", step.ticked ? "kept-step kept-done" : "kept-step");
    row.dataset.outboxForm = "";
    const may = sheet.open && !step.ticked && !held;
    const tick = element(may ? "button" : "div", "kept-tick", element("span", "kept-box", step.ticked ? "✓" : ""), element("span", "", step.text));
    tick.firstChild.setAttribute("aria-hidden", "true");
    if (may) {
      tick.type = "button";
      tick.setAttribute("aria-label", `Tick: ${step.text}`);
      Object.assign(tick.dataset, { outboxUrl: sheet.tickUrl, outboxBody: JSON.stringify({ stepId: step.id }), outboxSettles: "", outboxLabel: `Tick: ${step.text}` });
    }
    const words = element("div", "kept-words");
    if (step.words) words.append(element("span", "", step.words));
    if (may && step.measure) {
      const field = element("input", "input");
      Object.assign(field, { type: "text", inputMode: "decimal", autocomplete: "off" });
      Object.assign(field.dataset, { outboxField: "value", draft: `value-${step.id}` });
      words.append(element("label", "field", element("span", "field-label", step.measure), field));
    }
    if (may && step.photoFields) {
      const coming = element("input");
      coming.type = "hidden";
      Object.assign(coming.dataset, { outboxField: "photoQueued", photoStep: step.id });
      const file = element("input", "visually-hidden");
      Object.assign(file, { type: "file", accept: "image/*", multiple: true });
      file.setAttribute("capture", "environment");
      Object.assign(file.dataset, { uploadUrl: sheet.photoUrl, uploadFields: JSON.stringify(step.photoFields) });
      const said = element("span", "", "Photo kept, on its way");
      said.dataset.photoWords = step.id;
      said.hidden = true;
      words.append(coming, element("label", "button photo-picker", element("span", "", "Take photo"), file), said);
    }
    row.append(tick);
    if (words.childNodes.length > 0) row.append(words);
    return row;
  }

  function job(sheet) {
    document.title = `${sheet.reference} ${sheet.vehicle}, no connection`;
    const back = element("a", "button", "Your work");
    back.href = "/work";
    page.append(
      element("div", "button-row", back),
      element("h1", "", `${sheet.vehicle} ${sheet.plate}`.trim()),
      element("p", "kept-seen", `${sheet.reference} ${sheet.title}. Last seen ${new Date(sheet.seen).toLocaleString([], { dateStyle: "medium", timeStyle: "short" })}; others may have worked on it since.`));
    for (const each of sheet.cautions) page.append(caution(each.title, each.text, true));
    if (sheet.restrictions) page.append(element("p", "", element("strong", "", "The client asked: "), sheet.restrictions));
    for (const report of sheet.reports) page.append(caution("Reported", report, false));
    for (const stage of sheet.stages) {
      const part = element("details", "kept-stage", element("summary", "", stage.name, element("span", "number", `${stage.steps.filter(step => step.ticked).length} of ${stage.steps.length}`)));
      part.open = stage.current;
      if (stage.held) part.append(caution("Danger", stage.held, true));
      part.append(...(stage.measures ?? []).map(measure => measureRow(sheet, measure)));
      part.append(element("ol", "kept-steps", ...stage.steps.map(step => stepRow(sheet, step, stage.held))));
      page.append(part);
    }
  }

  function list() {
    page.append(element("h1", "", "Your work"), element("p", "kept-seen", "The jobs this tablet showed last. The others need the connection."));
    const jobs = element("ul", "kept-jobs");
    for (const sheet of kept.sheets()) {
      const link = element("a", "", `${sheet.reference} ${sheet.vehicle}`, element("span", "muted", sheet.title));
      link.href = `/work/${sheet.jobId}`;
      jobs.append(element("li", "", link));
    }
    page.append(jobs);
  }

  function locked() {
    document.querySelector('meta[name="shop-person"]').content = "";
    document.querySelector("[data-kept-lock]").hidden = true;
    document.querySelector("[data-kept-person]").textContent = "Nobody signed in";
    page.replaceChildren(
      element("h1", "", "Locked"),
      element("p", "", "The PIN is checked by the server, which this tablet cannot reach. What was entered before is kept and is sent when its owner signs in again."),
      element("p", "", "Bring the tablet back into reach of the Wi-Fi; this page then goes on by itself."));
  }

  function draw() {
    const person = kept.person();
    if (!person) return locked();
    document.querySelector("[data-kept-person]").textContent = person.name;
    document.querySelector("[data-kept-lock]").hidden = false;
    const sheet = kept.sheet(location.pathname.split("/")[2] ?? "");
    if (sheet) job(sheet); else list();
    const watch = setInterval(() => { if (!kept.person()) { clearInterval(watch); locked(); } }, 1000);
  }

  document.querySelector("[data-kept-lock]").addEventListener("click", () => { kept.leave(); locked(); });
  document.querySelector("[data-kept-again]").addEventListener("click", () => location.reload());
  // The live page takes over; it finds typed values in the drafts and presses in the outbox.
  const drawn = Date.now();
  document.addEventListener("shop-server-answers", () => setTimeout(() => { window.shopDrafts?.flush(); location.reload(); }, Math.max(0, 3000 - (Date.now() - drawn))));
  draw();
})();
